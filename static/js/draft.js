// Helps with a draft's text: line numbers, steps in with Tab, jumps to a line, a file read into the editor.
// Without this module the editor, the links to the numbered lines below it and the file field do the same work.
const text = document.getElementById("text");
const kept = text.value;

// ---- numbers beside the lines
const numbers = document.createElement("div");
numbers.className = "numbers";
numbers.setAttribute("aria-hidden", "true");
text.before(numbers);
text.parentElement.classList.add("numbered");
let counted = 0;
function count() {
  const lines = text.value.split("\n").length;
  if (lines === counted) return;
  counted = lines;
  numbers.textContent = Array.from({ length: lines }, (_, at) => at + 1).join("\n");
}
const follow = () => { numbers.scrollTop = text.scrollTop; };
text.addEventListener("input", count);
text.addEventListener("scroll", follow, { passive: true });
count();

// ---- jumps
function jump(line, column) {
  const rows = text.value.split("\n");
  const at = Math.min(line, rows.length) - 1;
  const start = rows.slice(0, at).reduce((sum, row) => sum + row.length + 1, 0);
  text.focus({ preventScroll: true });
  text.setSelectionRange(start + Math.max(0, column - 1), start + rows[at].length);
  text.scrollTop = (at - 6) * (text.scrollHeight / rows.length);
  text.scrollLeft = 0;
  text.scrollIntoView({ block: "nearest" });
  follow();
}
document.addEventListener("click", (event) => {
  const link = event.target.closest("a[data-line]");
  if (!link) return;
  event.preventDefault();
  jump(Number(link.dataset.line), Number(link.dataset.column ?? 1));
});

// ---- Tab steps in, Shift and Tab out; after Escape it leaves the editor, as everywhere
let leaving = false;
text.addEventListener("keydown", (event) => {
  if (event.key === "Escape") { leaving = true; return; }
  if (event.key !== "Tab" || leaving) { leaving = leaving && event.key === "Shift"; return; }
  event.preventDefault();
  const { value, selectionStart: from, selectionEnd: to } = text;
  const start = value.lastIndexOf("\n", from - 1) + 1;
  if (!event.shiftKey && from === to) { put(from, to, " ".repeat(4 - ((from - start) % 4))); return; }
  const block = value.slice(start, to);
  const moved = event.shiftKey ? block.replace(/^ {1,4}/gm, "") : block.replace(/^(?=.)/gm, "    ");
  put(start, to, moved);
  text.setSelectionRange(start, start + moved.length);
});
function put(from, to, words) {
  text.setSelectionRange(from, to);
  // The old command alone lets the change be undone with the keyboard.
  if (!document.execCommand("insertText", false, words)) text.setRangeText(words, from, to, "end");
  count();
}
document.getElementById("text-hint").append(" Tab steps in; Escape, then Tab, leaves the editor.");

// ---- a file
const file = document.getElementById("file");
file.addEventListener("change", async () => {
  const chosen = file.files[0];
  if (!chosen || chosen.size > 400_000) return;
  let words;
  try {
    words = new TextDecoder("utf-8", { fatal: true }).decode(await chosen.arrayBuffer());
  } catch { return; /* not a text: the shop says so when the form is sent */ }
  text.focus();
  put(0, text.value.length, words.replace(/\r\n?/g, "\n"));
  text.setSelectionRange(0, 0);
  text.scrollTop = 0;
  file.value = "";
});

// ---- nothing typed is lost by leaving
let sending = false;
document.getElementById("draft-form").addEventListener("submit", () => { sending = true; });
addEventListener("pageshow", () => { sending = false; });
addEventListener("beforeunload", (event) => {
  if (!sending && (text.value !== kept || text.dataset.unkept)) event.preventDefault();
});
