// Works out the cloth once the page stands; without this module its link does the same.
const place = document.querySelector("[data-fetch]");
if (place) {
  const link = place.innerHTML;
  place.innerHTML = "<p>Laying your pieces on the cloth …</p>";
  fetch(place.dataset.fetch, { credentials: "same-origin" })
    .then((answer) => (answer.ok ? answer.text() : Promise.reject(answer.status)))
    .then((text) => {
      const page = new DOMParser().parseFromString(text, "text/html");
      place.replaceChildren(...document.adoptNode(page.querySelector("[data-fragment]")).childNodes);
      // The cloth has pushed down what stands below it: what is wrong with an entry stays in view.
      document.getElementById("field-errors")?.scrollIntoView({ block: "center" });
    })
    .catch(() => { place.innerHTML = link; });
}
