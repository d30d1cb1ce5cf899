// A signature drawn with finger, pen or mouse goes along with its form as a picture.

for (const form of document.querySelectorAll<HTMLFormElement>("form[data-sign]")) {
  const field = form.querySelector<HTMLInputElement>('input[name="picture"]');
  const before = form.querySelector(".go");
  if (!field || !before) continue;
  const pad = document.createElement("canvas");
  pad.className = "pad";
  pad.width = 960;
  pad.height = 320;
  pad.setAttribute("role", "img");
  pad.setAttribute("aria-label", form.dataset["sign"] ?? "");
  const said = document.createElement("p");
  said.textContent = form.dataset["sign"] ?? "";
  before.before(said, pad);
  const pen = pad.getContext("2d");
  if (!pen) continue;
  pen.lineWidth = 5;
  pen.lineCap = "round";
  pen.lineJoin = "round";
  pen.strokeStyle = "#14211f";
  let drawing = false;
  let drawn = false;
  const at = (e: PointerEvent): [number, number] => {
    const box = pad.getBoundingClientRect();
    return [((e.clientX - box.left) / box.width) * pad.width, ((e.clientY - box.top) / box.height) * pad.height];
  };
  pad.addEventListener("pointerdown", (e) => {
    drawing = true;
    pad.setPointerCapture(e.pointerId);
    pen.beginPath();
    pen.moveTo(...at(e));
  });
  pad.addEventListener("pointermove", (e) => {
    if (!drawing) return;
    drawn = true;
    pen.lineTo(...at(e));
    pen.stroke();
  });
  const stop = (): void => {
    drawing = false;
  };
  pad.addEventListener("pointerup", stop);
  pad.addEventListener("pointercancel", stop);
  form.addEventListener("submit", () => {
    field.value = drawn ? pad.toDataURL("image/png") : "";
  });
}
