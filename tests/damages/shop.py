"""A shop with one order that was given out, and what its customer and its designer see of it."""

import re
from dataclasses import dataclass
from hashlib import sha256

from app.base.database import Database, make_engine
from app.base.jobs import BuildJob
from app.base.jobs.dbos_queue import DbosQueue
from app.base.storage import LocalPacks
from app.packs.request import PackFile, PackReady
from app.run.application import create_app
from app.shop.orders.models import Order
from app.shop.people.service import ensure_designer
from app.work.worker import BuildWorker
from tests.visitor import FORM, MEASURES, PASSWORD, Visitor, load_proved_demo, stored_password

FILES = {"pattern-a4.pdf": "Pattern for A4 paper", "everything.zip": "Everything in one file"}


def quick_builder(request, folder, progress):
    """Two files that are as long as a short pattern, and differ from build to build in nothing."""
    files = []
    for name, title in FILES.items():
        progress(f"Writing {title}", 0.5)
        content = f"{request.order_number} {name} ".encode() * 3000
        (folder / name).write_bytes(content)
        files.append(PackFile(name, title, len(content), sha256(content).hexdigest()))
    return PackReady(tuple(files), {"sheets": 12})


@dataclass
class Seen:
    """A page as somebody reads it: its status, and its words."""

    status: int
    words: str

    def __contains__(self, words):
        return words in self.words


class GivenOut:
    """The shop, its visitors, its worker, and the one order."""

    def __init__(self, settings, opened):
        self.settings = settings
        self.database = Database(make_engine(settings.database_address()))
        opened.callback(self.database.close)
        self.queue = DbosQueue(settings.database_address())
        opened.callback(self.queue.close)
        with self.database.writing() as session:
            load_proved_demo(session)
            ensure_designer(session, "ottilie@cotter-row.example", "").password_hash = stored_password()
        self.app = create_app(settings)
        opened.callback(self.app.state.queue.close)
        opened.callback(self.app.state.database.close)
        self.customer, self.designer = Visitor(self.app), Visitor(self.app)
        opened.callback(self.customer.close)
        opened.callback(self.designer.close)
        page = self.designer.get("/studio/sign-in")
        self.designer.submit(page, email="ottilie@cotter-row.example", password=PASSWORD)
        self.worker = BuildWorker(settings, self.database, self.queue, LocalPacks(settings.packs_dir()), quick_builder)
        fitted = self.customer.submit(self.customer.get(FORM), to=FORM, **MEASURES)
        self.path = self.customer.submit(fitted, to=f"{fitted.path}/order", name="Rosa Quill").path
        self.work()
        self.first = self.row()

    def row(self):
        """The order's row, as it is now."""
        with self.database.reading() as session:
            return session.query(Order).one()

    @property
    def pack(self):
        """The folder of the pack that was given out."""
        return self.settings.packs_dir() / self.first.pack_folder

    def work(self):
        """What a worker does with the job that waits for the order."""
        order = self.row()
        self.worker.run_job(BuildJob(order.id, order.ticket))

    def order_page(self):
        return seen(self.customer.get(self.path))

    def file(self, name="pattern-a4.pdf"):
        return self.customer.get(f"{self.path}/files/{name}").answer

    def file_page(self, name="pattern-a4.pdf"):
        return seen(self.customer.get(f"{self.path}/files/{name}"))

    def studio_page(self):
        return seen(self.designer.get(f"/studio/orders/{self.first.number}"))

    def as_built(self, name):
        """Whether the file that is sent now is the one that the row tells of."""
        answer, kept = self.file(name), next(file for file in self.row().files if file["name"] == name)
        return answer.status_code == 200 and sha256(answer.content).hexdigest() == kept["sha256"]


def seen(page):
    return Seen(page.status, re.sub(r"\s+", " ", page.words) if page.html.startswith("<") else "(a file)")
