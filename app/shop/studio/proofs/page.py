"""The proof of one version of a draft: looking at it, working it out again, accepting a share with open eyes."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Depends, Request
from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from app.pattern.problem import Problem, Refused
from app.shop.people.access import SignedInDesigner, signed_in_designer
from app.shop.proofs import service as proofs
from app.shop.proofs.warnings import accept_warning
from app.shop.proofs.words import percent
from app.shop.studio.access import TheVersion
from app.shop.studio.proofs.view import ProvedVersion, body_of, proof_page, proof_state, read_share
from app.web.admission import DraftTurn
from app.web.posted import Posted
from app.web.sessions import leave_outcome
from app.web.templating import render
from app.web.transactions import TheDatabase

__all__ = ["router"]

router = APIRouter(prefix="/studio/listings/{slug}/versions/{number}/proof", dependencies=[Depends(signed_in_designer)])

_NOT_SEEN = Refused.of(
    Problem("proof.not-seen", "Nothing was accepted.", "Look at the bodies that fail, then tick that you have.")
)
_NO_SHARE = Refused.of(
    Problem("proof.no-share", "This is not a share of the bodies.", "Write it in percent, like 98.5.")
)


def _proved_version(database: TheDatabase, of: TheVersion) -> ProvedVersion:
    proof = database.read(proofs.proof_with_bodies, of.version.id)
    if proof is None:
        raise HTTPException(404)
    return ProvedVersion(of.listing, of.version, proof)


#: The proof that the address names, with its version and listing.
TheProof = Annotated[ProvedVersion, Depends(_proved_version)]


@router.get("", dependencies=[DraftTurn])
def proof(request: Request, proved: TheProof, body: str = "") -> Response:
    """How a draft version stands, on which bodies, and where it fails."""
    return render(request, "shop/studio/proofs/proof.html", proof_page(proved, body_of(proved, body), body))


@router.get("/state")
def state(proved: TheProof) -> dict[str, Any]:
    """How far a proof is, for the page that follows it."""
    return proof_state(proved.proof)


@router.post("/again")
def again(request: Request, database: TheDatabase, proved: TheProof) -> Response:
    """Work the proof out again; what still holds is not repeated."""
    return _back(request, proved, database.write(proofs.prove_again, proved.proof), "The proof is worked out again.")


@router.post("/accept")
def accept(
    request: Request, database: TheDatabase, proved: TheProof, posted: Posted, designer: SignedInDesigner
) -> Response:
    """Take a share of the bodies as enough."""
    share = read_share(posted.get("share", ""))
    if share is None or posted.get("seen") != "yes":
        return _back(request, proved, _NO_SHARE if share is None else _NOT_SEEN, "")
    accepted = database.write(proofs.accept_share, proved.proof, share, designer.name)
    return _back(request, proved, accepted, f"{percent(share)} of the bodies is enough, by {designer.name}.")


@router.post("/accept-warning")
def accept_one_warning(
    request: Request, database: TheDatabase, proved: TheProof, posted: Posted, designer: SignedInDesigner
) -> Response:
    """Take one warning as it is, with a note why."""
    name = posted.get("check", ""), posted.get("about", "")
    accepted = database.write(accept_warning, proved.proof, name, posted.get("note", ""), designer.name)
    return _back(request, proved, accepted, "The warning is accepted, and your note stands beside it.")


def _back(request: Request, proved: ProvedVersion, outcome: object | Refused, done: str) -> Response:
    leave_outcome(request, outcome, done)
    return RedirectResponse(f"{proved.address}/proof", status_code=303)
