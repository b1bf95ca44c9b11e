// The arrow keys turn the leaves of a play-back; without this module its links and buttons do.
const ways = { ArrowLeft: "previous", ArrowRight: "next", Home: "first", End: "last" };
document.addEventListener("keydown", (event) => {
  if (event.altKey || event.ctrlKey || event.metaKey || event.target.closest("select, textarea, input")) return;
  const step = document.querySelector(`[data-way="${ways[event.key]}"]`);
  if (!step) return;
  event.preventDefault();
  step.click();
});
document.querySelector(".play-lines [aria-current]")?.scrollIntoView({ block: "nearest" });
