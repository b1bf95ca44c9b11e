"""The page of a listing's proof: looking at it, working it out again, and accepting a share with open eyes."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Depends, Request
from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from app.catalogue.models import Listing
from app.pattern.problem import Problem
from app.people.access import SignedInDesigner, signed_in_designer
from app.proofs import service as proofs
from app.proofs.models import Proof
from app.proofs.words import percent
from app.studio import service
from app.studio.proof_contexts import body_of, proof_page, proof_state, read_share
from app.web.posted import Posted
from app.web.sessions import leave_notice
from app.web.templating import render
from app.web.transactions import Transaction

__all__ = ["router"]

router = APIRouter(prefix="/studio/listings/{slug}/proof", dependencies=[Depends(signed_in_designer)])

_NOT_SEEN = Problem("proof.not-seen", "Nothing was accepted.", "Look at the bodies that fail, then tick that you have.")
_NO_SHARE = Problem("proof.no-share", "This is not a share of the bodies.", "Write it in percent, like 98.5.")


def _listing(session: Transaction, slug: str) -> Listing:
    listing = service.listing(session, slug)
    if listing is None or listing.current_version is None:
        raise HTTPException(404)
    return listing


TheListing = Annotated[Listing, Depends(_listing)]


def _proof(session: Transaction, listing: TheListing) -> Proof:
    proof = proofs.with_bodies(session, listing.current_version_id)
    if proof is None:
        raise HTTPException(404)
    return proof


TheProof = Annotated[Proof, Depends(_proof)]


@router.get("")
def proof(request: Request, listing: TheListing, proof: TheProof, body: str = "") -> Response:
    """How the current draft version stands, on which bodies, and where it fails."""
    shown = body_of(listing, proof, body)
    return render(request, "studio/proof.html", proof_page(listing, proof, shown, body))


@router.get("/state")
def state(proof: TheProof) -> dict[str, Any]:
    """How far a proof is, for the page that follows it."""
    return proof_state(proof)


@router.post("/again")
def again(request: Request, session: Transaction, slug: str, proof: TheProof) -> Response:
    """Work the proof out again; what still holds is not repeated."""
    return _back(request, slug, proofs.prove_again(session, proof), "The proof is worked out again.")


@router.post("/accept")
def accept(
    request: Request, session: Transaction, slug: str, proof: TheProof, posted: Posted, designer: SignedInDesigner
) -> Response:
    """Take a share of the bodies as enough."""
    share = read_share(posted.get("share", ""))
    if share is None or posted.get("seen") != "yes":
        return _back(request, slug, _NO_SHARE if share is None else _NOT_SEEN, "")
    problem = proofs.accept_share(session, proof, share, designer.name)
    return _back(request, slug, problem, f"{percent(share)} of the bodies is enough, by {designer.name}.")


def _back(request: Request, slug: str, problem: Problem | None, done: str) -> Response:
    if problem is None:
        leave_notice(request, done)
    else:
        leave_notice(request, f"{problem.message} {problem.fix}", "wrong")
    return RedirectResponse(f"/studio/listings/{slug}/proof", status_code=303)
