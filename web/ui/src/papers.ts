// Photographs are made smaller before they leave the device: a telephone's picture has ten
// times what a rating plate needs. Drawn anew, they carry no place and no time either. The
// server takes these out as well, so that all goes on without this script.

export {};

/** The longest side of a photograph that is kept, and how much is packed away. */
const longest = 2000;
const quality = 0.85;

const form = document.querySelector<HTMLFormElement>("form[data-papers]");

if (form) {
  const input = form.querySelector<HTMLInputElement>('input[type="file"]') as HTMLInputElement;
  const place = form.querySelector<HTMLInputElement>('input[name="place"]');
  const button = form.querySelector<HTMLButtonElement>('button[type="submit"]');
  let ready = false;
  form.addEventListener("submit", (e) => {
    if (ready) return;
    e.preventDefault();
    if (button?.getAttribute("aria-disabled") === "true") return;
    button?.setAttribute("aria-disabled", "true");
    const said = form.querySelector("[data-said]");
    if (said) said.textContent = form.dataset["busy"] ?? "";
    void prepare(input, place?.checked ?? false).then(() => {
      ready = true;
      // Later, since a form that is being sent does not let itself be sent again.
      window.setTimeout(() => form.requestSubmit());
    });
  });
  // Coming back to the page by the browser's button begins anew.
  window.addEventListener("pageshow", () => {
    ready = false;
    button?.removeAttribute("aria-disabled");
  });
}

/** Puts smaller pictures in the place of the chosen ones. */
async function prepare(input: HTMLInputElement, keep: boolean): Promise<void> {
  if (keep || !input.files) return;
  const chosen = new DataTransfer();
  for (const file of input.files) chosen.items.add(await smaller(file));
  input.files = chosen.files;
}

/** A picture no larger than needed; anything else, and what cannot be read here, as it is. */
async function smaller(file: File): Promise<File> {
  if (!file.type.startsWith("image/") || file.type.includes("svg")) return file;
  try {
    const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
    const scale = Math.min(1, longest / Math.max(picture.width, picture.height));
    // A drawing or a picture of a screen would only lose by being packed.
    if (scale === 1 && file.type === "image/png") return file;
    const canvas = document.createElement("canvas");
    canvas.width = Math.max(1, Math.round(picture.width * scale));
    canvas.height = Math.max(1, Math.round(picture.height * scale));
    const pen = canvas.getContext("2d");
    if (!pen) return file;
    pen.fillStyle = "#fff";
    pen.fillRect(0, 0, canvas.width, canvas.height);
    pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
    picture.close();
    const packed = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, "image/jpeg", quality));
    return packed ? new File([packed], file.name.replace(/\.[^.]*$/, "") + ".jpg", { type: "image/jpeg" }) : file;
  } catch {
    return file;
  }
}
