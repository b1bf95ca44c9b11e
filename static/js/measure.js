// The unit switch and "Fill in" without a page load. If anything fails, the form is sent in the ordinary way.
import { sendAndSwap } from "./swap.js";

document.addEventListener("click", async (event) => {
  const button = event.target.closest("form[data-swap] button[id]");
  if (!button) return;
  event.preventDefault();
  const form = button.form;
  try {
    await sendAndSwap(form, button);
  } catch {
    form.requestSubmit(button);
  }
});
