// What the pages do beyond plain forms. Each part looks for the page that it belongs to
// and does nothing on the others.

document.documentElement.classList.add("scripted");

import "./curve.js";
import "./decide.js";
import "./jobs.js";
import "./paper.js";
import "./papers.js";
import "./place.js";
import "./sign.js";
import "./survey.js";
import "./try.js";
import "./why.js";
