// The button of a step opens the camera at once, and what was taken is sent at once: on a
// phone nobody scrolls to a form. Making pictures smaller is done by the form itself.

const form = document.querySelector<HTMLFormElement>("form[data-photos]");
const input = form?.querySelector<HTMLInputElement>('input[type="file"]');
const step = form?.querySelector<HTMLSelectElement>('select[name="step"]');

if (form && input && step) {
  let quick = false;
  document.addEventListener("click", (e) => {
    const button = (e.target as HTMLElement).closest<HTMLElement>("[data-shoot]");
    if (!button) return;
    e.preventDefault();
    const wanted = button.dataset["shoot"] ?? "";
    // A reading may have come to the page after the form.
    if (![...step.options].some((o) => o.value === wanted)) step.add(new Option(button.getAttribute("aria-label") ?? wanted, wanted));
    step.value = wanted;
    quick = true;
    input.click();
  });
  input.addEventListener("change", () => {
    if (quick && input.files?.length) form.requestSubmit();
    quick = false;
  });
  input.addEventListener("cancel", () => {
    quick = false;
  });
}
