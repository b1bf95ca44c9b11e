// Shows the address that a design's name gives while it is typed; without this module the shop makes it when it is sent.
const title = document.getElementById("title");
const slug = document.getElementById("slug");
if (title && slug) {
  const made = (words) => words.toLowerCase().replace(/ß/g, "ss").normalize("NFKD").replace(/[\u0300-\u036f'’]/g, "")
    .replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 80).replace(/-+$/, "");
  title.addEventListener("input", (event) => {
    if (!slug.dataset.own) slug.value = made(event.target.value);
  });
  slug.addEventListener("input", () => { slug.dataset.own = slug.value ? "yes" : ""; });
  if (slug.value && slug.value !== made(title.value)) slug.dataset.own = "yes";
}
document.querySelector("#field-errors")?.focus();
