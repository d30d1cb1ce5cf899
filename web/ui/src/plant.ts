// The boiler room in another weather: a slider in place of the choice and its button.
// Only the drawing is fetched; the form carries the choice with everything else.

/** How long a pause of the slider is waited for, in milliseconds. */
const pause = 30;

let timer = 0;
let asked: AbortController | undefined;

/** The weather that is chosen now. */
export function chosenWeather(form: HTMLFormElement): string | undefined {
  return form.querySelector<HTMLSelectElement>("[data-weather] select")?.value;
}

/**
 * Puts the slider in; called again after each answer. An answer to a form that left
 * before the slider was moved shows an older choice: moved is then the present one.
 */
export function weather(form: HTMLFormElement, told: (text: string) => void, moved?: string): void {
  // Whatever was asked belongs to the figures that have just been replaced.
  clearTimeout(timer);
  asked?.abort();
  const box = form.querySelector<HTMLElement>("[data-weather]");
  const choice = box?.querySelector("select");
  if (!box || !choice || choice.options.length < 2) return;
  const slider = document.createElement("input");
  slider.type = "range";
  slider.id = "outdoors-slider";
  slider.min = "0";
  slider.max = String(choice.options.length - 1);
  slider.step = "1";
  const out = document.createElement("output");
  out.htmlFor = slider.id;
  const show = (): void => {
    slider.value = String(choice.selectedIndex);
    const [degrees = "", more = ""] = (choice.selectedOptions[0]?.text ?? "").split(", ");
    const small = document.createElement("small");
    small.textContent = more;
    out.replaceChildren(degrees, ...(more ? [small] : []));
    slider.setAttribute("aria-valuetext", choice.selectedOptions[0]?.text ?? "");
  };
  const changed = (): void => {
    clearTimeout(timer);
    timer = window.setTimeout(() => void draw(form, told), pause);
  };
  slider.addEventListener("input", () => {
    choice.selectedIndex = Number(slider.value);
    show();
    changed();
  });
  const label = box.querySelector("label");
  if (label) label.htmlFor = slider.id;
  box.append(slider, out);
  if (moved !== undefined && [...choice.options].some((o) => o.value === moved)) {
    choice.value = moved;
    changed();
  }
  show();
}

async function draw(form: HTMLFormElement, told: (text: string) => void): Promise<void> {
  asked?.abort();
  const mine = (asked = new AbortController());
  try {
    const kept = form.dataset["drawing"];
    const response = kept
      ? await fetch(`${kept}?outdoors=${encodeURIComponent(chosenWeather(form) ?? "")}`, { signal: mine.signal })
      : await fetch("/drawing", { method: "POST", body: new FormData(form), signal: mine.signal });
    const text = await response.text();
    if (mine.signal.aborted) return;
    const fresh = new DOMParser().parseFromString(text, "text/html").getElementById("plant");
    const old = document.getElementById("plant");
    if (!fresh || !old) return;
    old.replaceWith(document.adoptNode(fresh));
    told(fresh.querySelector("figcaption")?.textContent?.trim() ?? "");
  } catch {
    if (!mine.signal.aborted) told(form.querySelector<HTMLElement>("[data-weather]")?.dataset["away"] ?? "");
  }
}
