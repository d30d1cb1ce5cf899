// The curve's points are dragged on the chart, or moved with the arrow keys; slope and
// shift are sliders. This moves figures from field to field within their steps and ranges;
// what the house makes of them is the server's to say.

import { figure } from "./figures.js";
import { tell } from "./tell.js";

interface Frame {
  width: number;
  height: number;
  left: number;
  top: number;
  right: number;
  bottom: number;
  cold: number;
  mild: number;
  low: number;
  high: number;
}

/** A handle is a place on the chart: outdoor temperature and supply in the control's degrees. */
interface Handle {
  name: string;
  x(): number;
  y(): number;
  /** Whether it moves sideways as well. */
  sideways: boolean;
  /** Moves it towards a place. */
  move(x: number, y: number): void;
  /** Moves it by steps of its figures. */
  nudge(dx: number, dy: number): void;
}

const form = document.querySelector<HTMLFormElement>("form[data-curve]");

/** What has to be drawn anew after each change. */
const shown: (() => void)[] = [];

let latest = 0;
let speaking = 0;
let asking = false;
let again = false;

if (form) {
  for (const section of form.querySelectorAll<HTMLElement>("[data-shape]")) circuit(form, section);
  form.addEventListener("input", () => changed(form));
  form.addEventListener("change", () => settle(form));
  form.addEventListener("submit", (e) => {
    e.preventDefault();
    changed(form);
    settle(form);
  });
}

/** Asks what the house makes of it; while an answer is awaited, only the newest curve counts. */
function changed(form: HTMLFormElement): void {
  latest++;
  if (asking) again = true;
  else void ask(form);
}

async function ask(form: HTMLFormElement): Promise<void> {
  asking = true;
  do {
    again = false;
    const mine = latest;
    try {
      const body = new URLSearchParams([...new FormData(form)].map(([k, v]) => [k, String(v)]));
      const response = await fetch(form.dataset["curve"] ?? "", { method: "POST", body });
      const fresh = new DOMParser().parseFromString(await response.text(), "text/html").getElementById("curve-work");
      if (!fresh) throw new Error("no answer");
      place(form, fresh);
      if (mine === latest) later(() => tell(fresh.dataset["spoken"] ?? ""));
    } catch {
      tell(form.querySelector<HTMLElement>("#curve-work")?.dataset["away"] ?? "");
    }
  } while (again);
  asking = false;
}

/** Speaks when nothing has moved for a moment. */
function later(say: () => void): void {
  clearTimeout(speaking);
  speaking = window.setTimeout(say, 600);
}

/** Puts what was worked out in place and leaves fields and handles alone. */
function place(form: HTMLFormElement, fresh: HTMLElement): void {
  for (const now of form.querySelectorAll<HTMLElement>(".plot, .glance, .judged, .try-fault")) {
    const next = fresh.querySelector<HTMLElement>(`#${CSS.escape(now.id)}`);
    if (!next) continue;
    const frame = next.parentElement?.dataset["frame"];
    if (frame !== undefined && now.parentElement) now.parentElement.dataset["frame"] = frame;
    const scrolled = now.querySelector(".scroll")?.scrollLeft ?? 0;
    now.replaceChildren(...[...next.childNodes].map((n) => document.adoptNode(n)));
    if (scrolled) now.querySelector(".scroll")?.scrollTo(scrolled, 0);
  }
  for (const field of form.querySelectorAll<HTMLInputElement>("input[data-figure]")) {
    const theirs = fresh.querySelector<HTMLInputElement>(`#${CSS.escape(field.id)}`);
    const wrong = theirs?.getAttribute("aria-invalid") === "true";
    const cell = field.closest(".try-field");
    cell?.classList.toggle("wrong", wrong);
    cell?.querySelector(".fault")?.remove();
    field.toggleAttribute("aria-invalid", false);
    field.removeAttribute("aria-describedby");
    const fault = theirs?.closest(".try-field")?.querySelector(".fault");
    if (!wrong || !fault) continue;
    field.setAttribute("aria-invalid", "true");
    field.setAttribute("aria-describedby", fault.id);
    cell?.append(document.adoptNode(fault));
  }
  for (const show of shown) show();
}

/** The address then leads to the curve that is on the page, for a reload or a bookmark. */
function settle(form: HTMLFormElement): void {
  const query = new URLSearchParams();
  for (const [name, value] of new FormData(form)) if (value !== "") query.set(name, String(value));
  history.replaceState(null, "", `${form.action.split("?")[0]}?${query}`);
}

function circuit(form: HTMLFormElement, section: HTMLElement): void {
  const fields = section.querySelectorAll<HTMLInputElement>(":scope > .try-it > .try-fields input[data-figure]");
  const figures = new Map([...fields].map((f) => [f.dataset["figure"] ?? "", f]));
  const handles = section.dataset["shape"] === "slope-shift" ? turning(section, figures) : points(section);
  const moved = (): void => {
    for (const show of shown) show();
    changed(form);
  };
  for (const drawing of section.querySelectorAll<HTMLElement>("[data-frame]")) {
    for (const handle of handles) grip(form, section, drawing, handle, moved);
  }
  sliders(section, figures, handles, moved);
  for (const show of shown) show();
}

function value(field: HTMLInputElement | undefined): number {
  return field ? Number(field.value) : NaN;
}

function stepOf(field: HTMLInputElement | undefined): number {
  const step = Number(field?.step);
  return step > 0 ? step : 0;
}

/** A figure in its range and on its steps, counted from zero as the control counts them. */
function fit(field: HTMLInputElement, v: number): number {
  const step = stepOf(field);
  const min = Number(field.min);
  const max = Number(field.max);
  const near = step > 0 ? min + Math.round((v - min) / step) * step : min;
  return Math.min(Math.max(near, min), max);
}

function put(field: HTMLInputElement | undefined, v: number): void {
  if (field && Number.isFinite(v)) field.value = String(Math.round(fit(field, v) * 1000) / 1000);
}

/** The points of a line, a bent curve or a table. */
function points(section: HTMLElement): Handle[] {
  const groups = [...section.querySelectorAll<HTMLElement>(":scope > .try-it > .try-fields [data-handle]")].filter((g) => Number(g.dataset["handle"]) >= 0);
  const pairs = groups.map((g) => [...g.querySelectorAll<HTMLInputElement>("input")] as [HTMLInputElement, HTMLInputElement]);
  return groups.map((group, i): Handle => {
    const [outdoor, supply] = pairs[i] as [HTMLInputElement, HTMLInputElement];
    const colder = pairs[i - 1]?.[0];
    const milder = pairs[i + 1]?.[0];
    const across = (x: number): void => {
      // Points keep their order.
      const low = colder ? value(colder) + stepOf(outdoor) : -Infinity;
      const high = milder ? value(milder) - stepOf(outdoor) : Infinity;
      put(outdoor, Math.min(Math.max(x, low), high));
    };
    return {
      name: group.querySelector("legend")?.textContent ?? "",
      x: () => value(outdoor),
      y: () => value(supply),
      sideways: Number(outdoor.max) > Number(outdoor.min),
      move(x, y) {
        across(x);
        put(supply, y);
      },
      nudge(dx, dy) {
        if (dx) across(value(outdoor) + dx * stepOf(outdoor));
        if (dy) put(supply, value(supply) + dy * stepOf(supply));
      },
    };
  });
}

/** The two ends of a curve of slope and shift: dragging one leaves the other where it is. */
function turning(section: HTMLElement, figures: Map<string, HTMLInputElement>): Handle[] {
  const slope = figures.get("slope");
  const shift = figures.get("shift");
  const [room = 0, cold = 0, mild = 0] = (section.dataset["turns"] ?? "").split(" ").map(Number);
  if (!slope || !shift) return [];
  const at = (x: number): number => room + value(shift) + value(slope) * (room - x);
  const names = (section.dataset["ends"] ?? "").split("|");
  return [cold, mild].map((x, i): Handle => {
    const other = i === 0 ? mild : cold;
    const move = (_: number, y: number): void => {
      const held = at(other);
      put(slope, (y - held) / (other - x));
      put(shift, held - room - value(slope) * (room - other));
    };
    return {
      name: names[i] ?? "",
      x: () => x,
      y: () => at(x),
      sideways: false,
      move,
      nudge(_, dy) {
        // The cold end turns the curve, the mild end lifts it: each by one step.
        if (i === 0) put(slope, value(slope) + dy * stepOf(slope));
        else put(shift, value(shift) + dy * stepOf(shift));
      },
    };
  });
}

function text(v: number, unit: string): string {
  return `${figure(String(Math.round(v * 10) / 10))} ${unit}`;
}

/** Puts a handle on a drawing. */
function grip(form: HTMLFormElement, section: HTMLElement, drawing: HTMLElement, handle: Handle, moved: () => void): void {
  const unit = section.dataset["unit"] ?? "";
  const knob = document.createElement("span");
  knob.className = "handle";
  knob.tabIndex = 0;
  knob.setAttribute("role", "slider");
  knob.setAttribute("aria-orientation", "vertical");
  knob.setAttribute("aria-label", handle.name);
  drawing.append(knob);
  const frame = (): Frame => JSON.parse(drawing.dataset["frame"] ?? "{}") as Frame;
  shown.push(() => {
    const f = frame();
    const x = f.left + ((handle.x() - f.cold) / (f.mild - f.cold)) * (f.right - f.left);
    const y = f.bottom - ((handle.y() - f.low) / (f.high - f.low)) * (f.bottom - f.top);
    knob.style.left = `${(Math.min(Math.max(x, f.left), f.right) / f.width) * 100}%`;
    knob.style.top = `${(Math.min(Math.max(y, f.top), f.bottom) / f.height) * 100}%`;
    knob.setAttribute("aria-valuemin", String(Math.min(f.low, handle.y())));
    knob.setAttribute("aria-valuemax", String(Math.max(f.high, handle.y())));
    knob.setAttribute("aria-valuenow", String(Math.round(handle.y() * 10) / 10));
    const said = (section.dataset["at"] ?? "").replace("{name}", handle.name).replace("{supply}", text(handle.y(), unit)).replace("{outdoor}", text(handle.x(), unit));
    knob.setAttribute("aria-valuetext", said);
  });

  knob.addEventListener("pointerdown", (e) => {
    if (e.button !== 0) return;
    knob.setPointerCapture(e.pointerId);
    knob.classList.add("held");
    knob.focus({ preventScroll: true });
    e.preventDefault();
  });
  knob.addEventListener("pointermove", (e) => {
    if (!knob.hasPointerCapture(e.pointerId)) return;
    const box = drawing.getBoundingClientRect();
    const f = frame();
    const clamp = (v: number, low: number, high: number): number => Math.min(Math.max(v, low), high);
    const x = clamp(((e.clientX - box.left) / box.width) * f.width, f.left, f.right);
    const y = clamp(((e.clientY - box.top) / box.height) * f.height, f.top, f.bottom);
    const was = `${handle.x()} ${handle.y()}`;
    const outdoor = f.cold + ((x - f.left) / (f.right - f.left)) * (f.mild - f.cold);
    handle.move(outdoor, f.low + ((f.bottom - y) / (f.bottom - f.top)) * (f.high - f.low));
    if (`${handle.x()} ${handle.y()}` !== was) moved();
  });
  const release = (): void => {
    if (!knob.classList.contains("held")) return;
    knob.classList.remove("held");
    settle(form);
  };
  knob.addEventListener("pointerup", release);
  knob.addEventListener("pointercancel", release);
  knob.addEventListener("keydown", (e) => {
    const by: Record<string, [number, number]> = {
      ArrowUp: [0, 1],
      ArrowDown: [0, -1],
      ArrowLeft: handle.sideways ? [-1, 0] : [0, -1],
      ArrowRight: handle.sideways ? [1, 0] : [0, 1],
      PageUp: [0, 10],
      PageDown: [0, -10],
    };
    const step = by[e.key];
    if (!step || e.ctrlKey || e.altKey || e.metaKey) return;
    e.preventDefault();
    handle.nudge(...step);
    moved();
    settle(form);
  });
}

/**
 * Turns a curve of points around its foot, the mildest one, until the coldest is at a place. Each
 * point keeps its share of the rise, as it was before the slider began to move: from step to step
 * a share that was rounded each time would bend the curve.
 */
function turner(handles: Handle[]): (cold: number) => void {
  const places = (): string => handles.map((h) => `${h.x()} ${h.y()}`).join();
  let left = "";
  let shares: number[] = [];
  return (cold) => {
    const first = handles[0];
    const foot = handles[handles.length - 1];
    if (!first || !foot) return;
    if (places() !== left) {
      const rise = first.y() - foot.y();
      const across = foot.x() - first.x();
      shares = handles.map((h) => (rise !== 0 ? (h.y() - foot.y()) / rise : (foot.x() - h.x()) / across));
    }
    const from = foot.y();
    handles.forEach((h, i) => {
      if (h !== foot) h.move(h.x(), from + (shares[i] ?? 0) * (cold - from));
    });
    left = places();
  };
}

/** Slope and shift as sliders: beside their fields, or worked out from the points. */
function sliders(section: HTMLElement, figures: Map<string, HTMLInputElement>, handles: Handle[], moved: () => void): void {
  const unit = section.dataset["unit"] ?? "";
  for (const [key, field] of figures) {
    if (key !== "slope" && key !== "shift" && key !== "exponent") continue;
    const range = document.createElement("input");
    range.type = "range";
    range.min = field.min;
    range.max = field.max;
    range.step = field.step;
    range.setAttribute("aria-label", section.querySelector(`label[for="${CSS.escape(field.id)}"]`)?.textContent ?? "");
    field.closest(".try-field")?.append(range);
    range.addEventListener("input", (e) => {
      e.stopPropagation();
      field.value = range.value;
      moved();
    });
    shown.push(() => {
      range.value = field.value;
    });
  }
  const box = section.querySelector<HTMLElement>("[data-derived]");
  const first = handles[0];
  const last = handles[handles.length - 1];
  if (!box || !first || !last || section.dataset["shape"] === "slope-shift") return;
  box.hidden = false;
  const starts = (section.dataset["starts"] ?? "").split(" ").map(Number);
  const recommended = starts[2 * (handles.length - 1) + 1] ?? last.y();
  const supplies = [...section.querySelectorAll<HTMLInputElement>(':scope > .try-it > .try-fields input[data-figure$="-supply"]')];
  const step = stepOf(supplies[0]) || 1;

  const slope = box.querySelector<HTMLElement>('[data-derive="slope"]');
  const range = slope?.querySelector("input");
  const told = slope?.querySelector("output");
  if (slope && range && told && ["points", "table"].includes(section.dataset["shape"] ?? "")) {
    const steepness = (): number => (first.y() - last.y()) / (last.x() - first.x());
    const turn = turner(handles);
    shown.push(() => {
      // One step of the slider is one step of the supply at the cold point.
      const one = step / (last.x() - first.x());
      range.step = String(one);
      range.min = "0";
      range.max = String(Math.max(Math.ceil((Number(supplies[0]?.max) - last.y()) / step) * one, one));
      range.value = String(steepness());
      told.value = figure(steepness().toFixed(2));
      range.setAttribute("aria-valuetext", told.value);
    });
    range.addEventListener("input", (e) => {
      e.stopPropagation();
      turn(last.y() + Number(range.value) * (last.x() - first.x()));
      moved();
    });
  } else slope?.remove();

  const shift = box.querySelector<HTMLElement>('[data-derive="shift"]');
  const lift = shift?.querySelector("input");
  const lifted = shift?.querySelector("output");
  if (!lift || !lifted) return;
  lift.step = String(step);
  lift.min = String(-20 * step);
  lift.max = String(20 * step);
  shown.push(() => {
    const by = last.y() - recommended;
    lift.value = String(by);
    lifted.value = `${by > 0 ? "+" : ""}${text(by, unit)}`;
    lift.setAttribute("aria-valuetext", lifted.value);
  });
  lift.addEventListener("input", (e) => {
    e.stopPropagation();
    // All points move alike, or none: an end of a range stops the whole curve.
    let by = Number(lift.value) - (last.y() - recommended);
    for (const s of supplies) by = Math.min(Math.max(by, Number(s.min) - value(s)), Number(s.max) - value(s));
    for (const s of supplies) put(s, value(s) + by);
    moved();
  });
}
