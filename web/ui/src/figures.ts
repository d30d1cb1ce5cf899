// How the reader writes figures and times: the page says it at its root.

/** A figure with the reader's decimal sign and a true minus. */
export function figure(text: string): string {
  return text.replace("-", "−").replace(".", document.documentElement.dataset["decimal"] ?? ".");
}

/** The reader's clock: of 12 hours or of 24. */
export function hourCycle(): "h12" | "h23" {
  return document.documentElement.dataset["clock"] === "12" ? "h12" : "h23";
}

/** A day and month in the reader's order; in that of the language if none was chosen. */
export function dayMonth(at: Date): string {
  const day = String(at.getUTCDate()).padStart(2, "0");
  const month = String(at.getUTCMonth() + 1).padStart(2, "0");
  switch (document.documentElement.dataset["dates"]) {
    case "ymd": return `${month}-${day}`;
    case "mdy": return `${month}/${day}`;
    case "dmy": return document.documentElement.lang === "de" ? `${day}.${month}.` : `${day}/${month}`;
  }
  return new Intl.DateTimeFormat(document.documentElement.lang || "en", { timeZone: "UTC", day: "numeric", month: "short" }).format(at);
}
