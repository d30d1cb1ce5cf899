// What the pages do beyond plain forms. Each part looks for the page that it belongs to
// and does nothing on the others.

document.documentElement.classList.add("scripted");

import "./curve.js";
import "./decide.js";
import "./jobs.js";
import "./paper.js";
import "./papers.js";
import "./photos.js";
import "./place.js";
import "./sign.js";
import "./survey.js";
import "./try.js";
import "./upload.js";
import "./why.js";

// On a telephone not all places of a job fit beside each other: the one that is open does.
const places = document.querySelector<HTMLElement>(".places");
const here = places?.querySelector<HTMLElement>("[aria-current]");
if (places && here) places.scrollLeft = here.offsetLeft + here.offsetWidth - places.clientWidth + 24;
