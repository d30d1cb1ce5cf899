// A tap on a figure opens its working, wherever on the page that stands, and leads there.

/** A formula that is wider than the screen can be scrolled by the keyboard as well. */
document.addEventListener(
  "toggle",
  (e) => {
    for (const formula of (e.target as HTMLElement).querySelectorAll<HTMLElement>(".formula")) {
      if (formula.scrollWidth > formula.clientWidth) formula.tabIndex = 0;
    }
  },
  true,
);

document.addEventListener("click", (e) => {
  const link = (e.target as HTMLElement).closest<HTMLAnchorElement>("a[data-why]");
  if (!link || e.ctrlKey || e.metaKey || e.shiftKey || e.button !== 0) return;
  if (show(link.hash)) e.preventDefault();
});

function show(hash: string): boolean {
  const target = document.getElementById(hash.slice(1).replace(/-in$/, ""));
  if (!target) return false;
  // A working may lie in something that is folded away as well.
  for (let at: HTMLElement | null = target; at; at = at.parentElement) if (at instanceof HTMLDetailsElement) at.open = true;
  const focus = target instanceof HTMLDetailsElement ? target.querySelector("summary") : target;
  focus?.focus({ preventScroll: true });
  target.scrollIntoView({ block: "nearest" });
  return true;
}

// A link from another page.
if (/-in$/.test(location.hash)) show(location.hash);
