/*! Contains uPlot 1.6, copyright (c) 2025 Leon Sorokin, under the MIT licence. */

// The log over its time, to be looked into: a year by the minute, of which the server sends
// for each stretch no more points than the screen has columns.

import uPlot from "uplot";
import "uplot/dist/uPlot.min.css";
import { dayMonth, figure, hourCycle } from "./figures.js";

interface Column {
  name: string;
  unit: string;
  warm: boolean;
}

interface Stretch {
  first: number;
  last: number;
  from: number;
  to: number;
  columns: Column[];
  stamps: number[];
  values: (number | null)[][];
}

interface Mark {
  from: number;
  to: number;
  name: string;
}

const place = document.getElementById("series");
if (place) void begin(place);

async function begin(place: HTMLElement): Promise<void> {
  const told = (key: string): string => place.dataset[key] ?? "";
  const first = Number(told("first"));
  const last = Number(told("last"));
  const closest = 600; // s that are shown at least
  let from = Number(told("from"));
  let to = Number(told("to"));
  let asking: AbortController | undefined;
  let waiting = 0;
  let frame = 0; // in which the next stretch is drawn: fingers move more often than the screen

  const marks: Mark[] = [...document.querySelectorAll<HTMLAnchorElement>("a.stretch")].map((a) => ({
    from: Number(a.dataset["from"]),
    to: Number(a.dataset["to"]),
    name: a.dataset["mark"] ?? "",
  }));

  let stretch: Stretch;
  try {
    stretch = await fetched(from, to);
  } catch {
    return; // the still drawing stays
  }

  const tools = element("div", "series-tools");
  const sheet = element("div", "series-sheet");
  const columns = element("fieldset", "series-columns");
  const status = element("p", "remark");
  status.setAttribute("role", "status");
  columns.append(element("legend", "", told("columns")));
  const keys = element("p", "remark", told("keys"));
  keys.id = "series-keys";
  sheet.tabIndex = 0;
  sheet.setAttribute("role", "group");
  sheet.setAttribute("aria-labelledby", "course-title");
  sheet.setAttribute("aria-describedby", "series-keys");
  place.replaceChildren(tools, sheet, status, keys, columns);

  const colour = (name: string): string => getComputedStyle(place).getPropertyValue(name).trim() || "gray";
  const lines = ["--cool", "--warm", "--series-c", "--series-d", "--series-e", "--series-f", "--ink", "--soft"];
  const scaleOf = (c: Column): string => c.unit || "-";
  const shown = stretch.columns.map((c) => c.warm);
  if (!shown.includes(true)) shown.fill(true);
  const units = [...new Set(stretch.columns.map(scaleOf))];
  // Two scales have room for their figures: of the temperatures, and of one thing besides.
  const axisOf = (unit: string): boolean => units.indexOf(unit) < 2;
  const language = document.documentElement.lang || "en";
  const hour = new Intl.DateTimeFormat(language, { timeZone: "UTC", hour: "2-digit", minute: "2-digit", hourCycle: hourCycle() });
  /** Hours within a day, and the day at its beginning. */
  const named = (at: number): string => (at % 86400 === 0 ? dayMonth(new Date(at * 1e3)) : hour.format(new Date(at * 1e3)));
  const when = (at: number): Date => uPlot.tzDate(new Date(at * 1e3), "Etc/UTC");

  let plot = draw();
  new ResizeObserver(() => {
    if (Math.abs(sheet.clientWidth - plot.width) > 1) plot.setSize(size());
  }).observe(sheet);
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => {
    plot.destroy();
    plot = draw();
  });

  stretch.columns.forEach((c, i) => {
    const label = element("label", "");
    const box = document.createElement("input");
    box.type = "checkbox";
    box.checked = shown[i] ?? false;
    box.addEventListener("change", () => {
      shown[i] = box.checked;
      plot.setSeries(i + 1, { show: box.checked });
    });
    const key = element("span", `series-key series-${i % lines.length}`);
    label.append(box, key, ` ${c.name}${c.unit ? `, ${c.unit}` : ""}`);
    columns.append(label);
  });
  for (const [name, act] of [
    ["in", () => zoom(0.5)],
    ["out", () => zoom(2)],
    ["earlier", () => pan(-0.5)],
    ["later", () => pan(0.5)],
    ["whole", () => go(first, last)],
  ] as [string, () => void][]) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "small";
    button.textContent = told(name);
    button.addEventListener("click", act);
    tools.append(button);
  }

  sheet.addEventListener("keydown", (e) => {
    if (e.ctrlKey || e.altKey || e.metaKey) return;
    const act = {
      ArrowLeft: () => pan(-0.25),
      ArrowRight: () => pan(0.25),
      "+": () => zoom(0.5),
      "=": () => zoom(0.5),
      "-": () => zoom(2),
      "0": () => go(first, last),
      Home: () => go(first, last),
    }[e.key];
    if (!act) return;
    e.preventDefault();
    act();
  });
  for (const a of document.querySelectorAll<HTMLAnchorElement>("a.stretch")) {
    a.addEventListener("click", (e) => {
      e.preventDefault();
      jump({ from: Number(a.dataset["from"]), to: Number(a.dataset["to"]), name: "" });
      place.scrollIntoView({ block: "start" });
      sheet.focus({ preventScroll: true });
    });
  }

  function size(): { width: number; height: number } {
    const width = Math.max(200, sheet.clientWidth);
    return { width, height: Math.max(240, Math.min(420, Math.round(width * 0.55))) };
  }

  function data(): uPlot.AlignedData {
    return [stretch.stamps, ...stretch.values] as uPlot.AlignedData;
  }

  function draw(): uPlot {
    const faint = colour("--chart-faint");
    const grid = { stroke: colour("--chart-grid"), width: 1 };
    return new uPlot(
      {
        ...size(),
        tzDate: when,
        legend: { show: false },
        cursor: { drag: { x: true, y: false, setScale: false }, points: { show: false } },
        select: { show: true, left: 0, top: 0, width: 0, height: 0 },
        scales: { x: { time: true, range: () => [from, to] } },
        axes: [
          { stroke: faint, grid, ticks: grid, space: 60, values: (_u, splits) => splits.map(named) },
          ...units.filter(axisOf).map((unit, i) => ({
            scale: unit, stroke: faint, side: i === 0 ? 3 : 1, label: unit, values: (_u: uPlot, splits: number[]) => splits.map((v) => figure(String(Math.round(v * 1000) / 1000))), labelSize: 18, size: 46,
            grid: i === 0 ? grid : { show: false }, ticks: grid,
          })),
        ],
        series: [
          {},
          ...stretch.columns.map((c, i) => ({
            label: c.name, scale: scaleOf(c), show: shown[i] ?? false, width: 1.4,
            stroke: colour(lines[i % lines.length] ?? "--ink"), points: { show: false },
          })),
        ],
        hooks: { drawClear: [shade], setSelect: [chosen], ready: [clickable, handled] },
      },
      data(),
      sheet,
    );
  }

  /** The stretches of the findings lie under the lines, each with its number. */
  function shade(u: uPlot): void {
    const { ctx, bbox } = u;
    ctx.save();
    ctx.font = `600 ${12 * devicePixelRatio}px sans-serif`;
    for (const m of marks) {
      const a = Math.max(bbox.left, u.valToPos(m.from, "x", true));
      const b = Math.min(bbox.left + bbox.width, u.valToPos(m.to, "x", true));
      if (b < bbox.left || a > bbox.left + bbox.width) continue;
      ctx.fillStyle = colour("--chart-band");
      ctx.fillRect(a, bbox.top, Math.max(3, b - a), bbox.height);
      ctx.fillStyle = colour("--chart-faint");
      ctx.fillText(m.name, a + 3, bbox.top + bbox.height - 6);
    }
    ctx.restore();
  }

  function chosen(u: uPlot): void {
    const { left, width } = u.select;
    if (width < 4) return;
    const a = u.posToVal(left, "x");
    const b = u.posToVal(left + width, "x");
    u.setSelect({ left: 0, top: 0, width: 0, height: 0 }, false);
    go(a, b);
  }

  function clickable(u: uPlot): void {
    let pressed = 0;
    u.over.addEventListener("pointerdown", (e) => (pressed = e.clientX));
    u.over.addEventListener("click", (e) => {
      if (Math.abs(e.clientX - pressed) > 3) return; // the end of a drag
      const at = u.posToVal(e.clientX - u.over.getBoundingClientRect().left, "x");
      const near = (to - from) / 200;
      const hit = marks.filter((m) => at > m.from - near && at < m.to + near).sort((a, b) => a.to - a.from - (b.to - b.from))[0];
      if (hit) jump(hit);
    });
  }

  /** Wheel, fingers, and the mouse with Shift. */
  function handled(u: uPlot): void {
    const over = u.over;
    const timeAt = (x: number): number => from + ((x - over.getBoundingClientRect().left) / over.clientWidth) * (to - from);
    over.addEventListener(
      "wheel",
      (e) => {
        // Until somebody has clicked into the drawing the wheel moves the page; where all is
        // shown already it does so again.
        const wanted = e.ctrlKey || e.metaKey || sheet.contains(document.activeElement);
        const across = Math.abs(e.deltaX) > Math.abs(e.deltaY);
        if (!wanted || (!across && e.deltaY > 0 && from <= first && to >= last)) return;
        e.preventDefault();
        const step = e.deltaMode === 1 ? 24 : e.deltaMode === 2 ? 400 : 1;
        if (across) pan((e.deltaX * step) / over.clientWidth);
        else zoom(Math.exp(Math.max(-200, Math.min(200, e.deltaY * step)) * (e.ctrlKey ? 0.01 : 0.0025)), timeAt(e.clientX));
      },
      { passive: false },
    );

    // What lies under each finger when it comes down stays under it.
    const under = new Map<number, { x: number; at: number }>();
    const pin = (): void => under.forEach((f) => (f.at = timeAt(f.x)));
    over.addEventListener("pointerdown", (e) => {
      if (e.button === 0) sheet.focus({ preventScroll: true });
      if (e.pointerType === "mouse" && !(e.shiftKey && e.button === 0)) return;
      over.setPointerCapture(e.pointerId);
      under.set(e.pointerId, { x: e.clientX, at: 0 });
      pin();
    });
    over.addEventListener("pointermove", (e) => {
      const finger = under.get(e.pointerId);
      if (!finger) return;
      finger.x = e.clientX;
      const box = over.getBoundingClientRect();
      const [a, b] = [...under.values()];
      if (a && b) {
        if (Math.abs(b.x - a.x) < 20) return;
        const perPixel = (b.at - a.at) / (b.x - a.x);
        if (perPixel <= 0) return;
        const begin = a.at - (a.x - box.left) * perPixel;
        go(begin, begin + box.width * perPixel);
      } else {
        pan((finger.at - timeAt(finger.x)) / (to - from));
      }
    });
    for (const end of ["pointerup", "pointercancel"] as const) {
      over.addEventListener(end, (e) => {
        under.delete(e.pointerId);
        pin();
      });
    }
    // With Shift the mouse moves the stretch; it chooses none then.
    over.addEventListener("mousedown", (e) => e.shiftKey && e.stopImmediatePropagation(), { capture: true });
  }

  function jump(m: Mark): void {
    const air = Math.max(m.to - m.from, 6 * 3600);
    go(m.from - air, m.to + air);
  }

  /** Zooms about a time, which stays where it is. */
  function zoom(by: number, about = (from + to) / 2): void {
    go(about - (about - from) * by, about + (to - about) * by);
  }

  function pan(by: number): void {
    const d = (to - from) * by;
    const shift = d < 0 ? Math.max(d, first - from) : Math.min(d, last - to);
    go(from + shift, to + shift);
  }

  /** Shows a stretch at once with the rows that are there, and then with its own. */
  function go(a: number, b: number): void {
    a = Math.max(first, Math.round(a));
    b = Math.min(last, Math.round(b));
    if (b - a < closest) b = Math.min(last, a + closest);
    if (b - a < closest) a = Math.max(first, b - closest);
    [from, to] = [a, b];
    place!.dataset["from"] = String(from);
    place!.dataset["to"] = String(to);
    frame ||= requestAnimationFrame(() => {
      frame = 0;
      plot.setScale("x", { min: from, max: to });
    });
    clearTimeout(waiting);
    waiting = window.setTimeout(() => void finer(), 80);
  }

  async function finer(): Promise<void> {
    asking?.abort();
    asking = new AbortController();
    try {
      stretch = await fetched(from, to, asking.signal);
      plot.setData(data(), true);
      status.textContent = "";
      place!.dataset["drawn"] = `${from}-${to}`;
    } catch (e) {
      if (!(e instanceof DOMException && e.name === "AbortError")) status.textContent = told("trouble");
    }
  }

  async function fetched(a: number, b: number, signal?: AbortSignal): Promise<Stretch> {
    // A little more on both sides, so that a small step shows no empty edge.
    const air = Math.round((b - a) * 0.25);
    const most = Math.min(2000, Math.max(200, Math.round(place.clientWidth * 1.5)));
    const ask = new URLSearchParams({ from: String(a - air), to: String(b + air), most: String(most), units: told("units") });
    const answer = await fetch(`${told("series")}?${ask}`, signal ? { signal } : {});
    if (!answer.ok) throw new Error(String(answer.status));
    return (await answer.json()) as Stretch;
  }
}

function element(name: string, kind: string, text = ""): HTMLElement {
  const e = document.createElement(name);
  if (kind) e.className = kind;
  if (text) e.textContent = text;
  return e;
}
