// Reading values off a curve: a pointer on the chart or a slider beneath it, which the
// keyboard moves as well.

interface Reading {
  outdoor: number;
  supply: number;
  return: number;
  need: number;
}

const svgName = "http://www.w3.org/2000/svg";

/** Outdoor temperature last looked at on each circuit, kept while the figures change. */
const kept = new Map<string, number>();

/** Adds the read-out to every curve that has none. */
export function probes(root: HTMLElement): void {
  for (const figure of root.querySelectorAll<HTMLElement>("figure[data-curve]")) {
    if (!figure.querySelector("[data-probe]")) add(figure);
  }
}

function add(figure: HTMLElement): void {
  const points = JSON.parse(figure.dataset["curve"] ?? "[]") as Reading[];
  const first = points[0];
  const last = points[points.length - 1];
  if (!first || !last || points.length < 2) return;
  const unit = figure.dataset["unit"] ?? "";
  const name = figure.dataset["name"] ?? "";
  const [outdoors = "", supply = "", back = "", needed = ""] = (figure.dataset["words"] ?? "").split("|");
  const id = `probe-${name.replace(/[^A-Za-z0-9]+/g, "-")}-${figure.parentElement?.querySelector("h2")?.id ?? ""}`;

  const box = document.createElement("div");
  box.className = "probe";
  box.dataset["probe"] = "";
  const label = document.createElement("label");
  label.htmlFor = id;
  label.textContent = figure.dataset["probeLabel"] ?? "";
  const slider = document.createElement("input");
  slider.type = "range";
  slider.id = id;
  slider.min = String(Math.ceil(first.outdoor));
  slider.max = String(Math.floor(last.outdoor));
  slider.step = "1";
  const out = document.createElement("output");
  out.htmlFor = id;
  box.append(label, slider, out);
  figure.querySelector("figcaption")?.before(box);

  const drawings = [...figure.querySelectorAll<HTMLElement>(".drawing")].map(needle);

  const show = (outdoor: number): void => {
    const at = Math.min(Math.max(Math.round(outdoor), Number(slider.min)), Number(slider.max));
    const value = between(points, at);
    kept.set(`${name} ${unit}`, at);
    slider.value = String(at);
    out.replaceChildren(
      part("", outdoors, at, unit),
      part("warm", supply, value.supply, unit),
      part("cool", back, value.return, unit),
      part("", needed, value.need, unit),
    );
    slider.setAttribute("aria-valuetext", out.textContent ?? "");
    for (const move of drawings) move((at - first.outdoor) / (last.outdoor - first.outdoor));
  };

  slider.addEventListener("input", () => show(Number(slider.value)));
  for (const drawing of figure.querySelectorAll<HTMLElement>(".drawing")) {
    const touch = document.createElement("div");
    touch.className = "touch";
    drawing.append(touch);
    const read = (e: PointerEvent): void => {
      const line = drawing.querySelector("polyline.supply")?.getBoundingClientRect();
      if (line && line.width > 0) show(first.outdoor + ((e.clientX - line.left) / line.width) * (last.outdoor - first.outdoor));
    };
    touch.addEventListener("pointermove", read);
    touch.addEventListener("pointerdown", read);
  }
  show(kept.get(`${name} ${unit}`) ?? Math.round((first.outdoor + last.outdoor) / 2));
}

function part(kind: string, what: string, value: number, unit: string): HTMLElement {
  const span = document.createElement("span");
  span.className = kind;
  const figure = document.createElement("b");
  figure.textContent = `${String(Math.round(value) + 0).replace("-", "−")} ${unit}`;
  span.append(`${what} `, figure);
  return span;
}

/** The value between two points lies on the straight line that the chart draws. */
function between(points: Reading[], outdoor: number): Reading {
  let a = points[0] as Reading;
  for (const b of points.slice(1)) {
    if (outdoor <= b.outdoor) {
      const t = (outdoor - a.outdoor) / (b.outdoor - a.outdoor);
      const mix = (x: number, y: number): number => x + (y - x) * t;
      return { outdoor, supply: mix(a.supply, b.supply), return: mix(a.return, b.return), need: mix(a.need, b.need) };
    }
    a = b;
  }
  return a;
}

/** Puts a needle into a drawing and gives what moves it, by its share of the width. */
function needle(drawing: HTMLElement): (share: number) => void {
  const svg = drawing.querySelector("svg");
  const lines = ["supply", "return"].map((c) => corners(drawing.querySelector(`polyline.${c}`)));
  const [supply] = lines;
  if (!svg || !supply?.length) return () => undefined;
  const stem = document.createElementNS(svgName, "line");
  stem.setAttribute("class", "needle");
  stem.setAttribute("y1", "24");
  stem.setAttribute("y2", String(svg.viewBox.baseVal.height - 39));
  svg.append(stem);
  const dots = ["supply", "return"].map((c) => {
    const dot = document.createElementNS(svgName, "circle");
    dot.setAttribute("class", `dot ${c}`);
    dot.setAttribute("r", "5");
    svg.append(dot);
    return dot;
  });
  return (share) => {
    const from = supply[0] as [number, number];
    const to = supply[supply.length - 1] as [number, number];
    const x = from[0] + share * (to[0] - from[0]);
    stem.setAttribute("x1", String(x));
    stem.setAttribute("x2", String(x));
    dots.forEach((dot, i) => {
      dot.setAttribute("cx", String(x));
      dot.setAttribute("cy", String(height(lines[i] ?? [], x)));
    });
  };
}

function corners(line: Element | null): [number, number][] {
  const text = line?.getAttribute("points") ?? "";
  return text.split(" ").filter(Boolean).map((p) => {
    const [x, y] = p.split(",").map(Number);
    return [x ?? 0, y ?? 0];
  });
}

function height(line: [number, number][], x: number): number {
  for (let i = 1; i < line.length; i++) {
    const [ax, ay] = line[i - 1] as [number, number];
    const [bx, by] = line[i] as [number, number];
    if (x <= bx || i === line.length - 1) return bx > ax ? ay + ((by - ay) * (x - ax)) / (bx - ax) : by;
  }
  return 0;
}
