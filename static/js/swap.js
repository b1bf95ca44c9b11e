// Sends a form in the background and puts the answer's <main> in place of this one, so that nothing jumps.
export async function sendAndSwap(form, button) {
  // A button of this form is called "action", so form.action is that button: ask for the attribute.
  const body = new FormData(form);
  body.set(button.name, button.value);
  const answer = await fetch(form.getAttribute("action"), { method: "POST", body: new URLSearchParams(body), credentials: "same-origin" });
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  const fresh = page.querySelector("main form[data-swap]");
  if (!fresh) throw new Error("the answer holds no form");
  form.replaceWith(document.adoptNode(fresh));
  document.getElementById(button.id)?.focus({ preventScroll: true });
}
