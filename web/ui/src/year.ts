// The year on the page: played when somebody presses the button, without leaving the
// page. What was played stays while other figures change, and says that it is older.

let playing = false;

/** Makes a fresh section ready; called again after each answer. */
export function year(form: HTMLFormElement): void {
  // A large file of weather is sent along with this button only.
  file(form)?.removeAttribute("name");
  busy(form, playing);
}

/** Remembers what was played and gives what puts it into the section that comes next. */
export function keepYear(form: HTMLFormElement): () => void {
  const old = form.querySelector<HTMLElement>("#year");
  const chosen = file(form);
  const played = old?.querySelector<HTMLElement>("#played");
  return () => {
    const now = form.querySelector<HTMLElement>("#year");
    if (!old || !now || now === old) return;
    if (chosen) file(form)?.replaceWith(chosen);
    if (!played || now.dataset["job"] !== old.dataset["job"]) return;
    // Why a year could not be played may be put right by now.
    if (!played.querySelector(".compare") && played.dataset["mark"] !== now.dataset["mark"]) return;
    now.append(played);
    again(now);
    age(now);
  };
}

/** Plays the year and puts it in place. */
export async function play(form: HTMLFormElement, told: (text: string) => void): Promise<void> {
  if (playing) return;
  const chosen = file(form)?.files?.[0];
  const most = Number(file(form)?.dataset["most"] ?? Infinity);
  if (chosen && chosen.size > most) {
    trouble(form, told, file(form)?.dataset["large"] ?? "");
    return;
  }
  playing = true;
  trouble(form, told, "");
  busy(form, true);
  told(form.querySelector("#year [data-working]")?.textContent ?? "");
  const body = new FormData(form);
  if (chosen) body.append("weather-file", chosen);
  try {
    const response = await fetch(form.dataset["year"] ?? "/year/section", { method: "POST", body });
    const fresh = new DOMParser().parseFromString(await response.text(), "text/html").getElementById("year");
    if (!fresh) throw new Error("no year");
    place(form, fresh);
    told(fresh.dataset["spoken"] ?? "");
  } catch {
    trouble(form, told, file(form)?.dataset["away"] ?? "");
  } finally {
    playing = false;
    busy(form, false);
  }
}

/** Puts in what was played, which may be older than the figures on the page by now. */
function place(form: HTMLFormElement, fresh: HTMLElement): void {
  const now = form.querySelector<HTMLElement>("#year");
  const played = fresh.querySelector("#played");
  if (!now || !played) return;
  // Another example may have been chosen meanwhile.
  if (fresh.dataset["job"] && now.dataset["job"] !== fresh.dataset["job"]) return;
  now.querySelector("#played")?.remove();
  now.append(document.adoptNode(played));
  again(now);
  age(now);
}

/** Says so if what was played is not of the job that is on the page. */
function age(section: HTMLElement): void {
  const played = section.querySelector<HTMLElement>("#played");
  const note = played?.querySelector<HTMLElement>("[data-outdated]");
  if (played && note) note.hidden = played.dataset["mark"] === section.dataset["mark"];
}

/** The button's words once there is a year. */
function again(section: HTMLElement): void {
  const button = section.querySelector<HTMLElement>("#play");
  if (button) button.textContent = button.dataset[section.querySelector("#played .compare") ? "again" : "play"] ?? "";
}

function busy(form: HTMLFormElement, on: boolean): void {
  const section = form.querySelector<HTMLElement>("#year");
  if (!section) return;
  section.setAttribute("aria-busy", String(on));
  section.querySelector("#play")?.setAttribute("aria-disabled", String(on));
  const words = section.querySelector<HTMLElement>("[data-working]");
  if (words) words.hidden = !on;
}

function trouble(form: HTMLFormElement, told: (text: string) => void, text: string): void {
  const place = form.querySelector<HTMLElement>("[data-trouble]");
  if (!place) return;
  place.textContent = text;
  place.hidden = text === "";
  if (text) told(text);
}

function file(form: HTMLFormElement): HTMLInputElement | null {
  return form.querySelector<HTMLInputElement>("#weather-file");
}
