// A search that runs is looked in on; its trade-off gets a slider.

const place = document.getElementById("decide");

if (place) {
  slide();
  if (place.querySelector("[data-running]")) void look(place);
}

async function look(box: HTMLElement): Promise<void> {
  await new Promise((resolve) => setTimeout(resolve, 700));
  try {
    const response = await fetch(box.dataset["look"] ?? "");
    box.innerHTML = await response.text();
  } catch {
    // the server may be back in a moment
  }
  if (box.querySelector("[data-running]")) void look(box);
  else slide();
}

/** Shows one point of the trade-off at a time. */
function slide(): void {
  const front = document.querySelector<HTMLElement>("[data-front]");
  const items = [...(front?.querySelectorAll<HTMLElement>("li") ?? [])];
  if (!front || items.length < 2) return;
  const slider = document.createElement("input");
  slider.type = "range";
  slider.min = "0";
  slider.max = String(items.length - 1);
  slider.step = "1";
  slider.setAttribute("aria-label", front.querySelector("h3")?.textContent ?? "");
  const show = (): void => {
    items.forEach((item, i) => {
      item.hidden = i !== Number(slider.value);
      const details = item.querySelector("details");
      if (details) details.open = true;
    });
    slider.setAttribute("aria-valuetext", items[Number(slider.value)]?.querySelector("summary")?.textContent ?? "");
  };
  slider.addEventListener("input", show);
  front.querySelector("ol")?.before(slider);
  slider.value = "0";
  show();
}
