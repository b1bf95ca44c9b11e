"""The hash by which draft versions are told apart, held against the standard's own worked example.

Source: FIPS 180-4 (Secure Hash Standard), example for SHA-256 of the three letters "abc", as NIST publishes it.
"""

from app.shop.catalogue.service import add_draft_version

SHA256_ABC = "ba7816bf 8f01cfea 414140de 5dae2223 b00361a3 96177a9c b410ff61 f20015ad"


def test_a_versions_hash_is_sha_256_of_its_text(session, listing):
    assert add_draft_version(session, listing, "abc").sha256 == SHA256_ABC.replace(" ", "")
