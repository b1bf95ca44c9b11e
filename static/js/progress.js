// Follows an order while it is built: asks every second, later every three, and loads the page anew at the end.
const place = document.querySelector("[data-poll]");
const bar = place?.querySelector("progress");
const stage = place?.querySelector("[data-stage]");
let asked = 0;

async function ask() {
  try {
    const answer = await fetch(place.dataset.poll, { credentials: "same-origin" });
    if (answer.ok) {
      const state = await answer.json();
      if (!state.waiting) { location.reload(); return; }
      bar.value = state.percent;
      if (stage.textContent !== state.stage) stage.textContent = state.stage;
    }
  } catch { /* offline for a moment: ask again */ }
  asked += 1;
  setTimeout(ask, asked < 60 ? 1000 : 3000);
}
if (place) setTimeout(ask, 500);
