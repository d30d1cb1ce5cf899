// The list of jobs narrows while one types into its search.

const search = document.querySelector<HTMLFormElement>("#search");
const list = document.getElementById("list");

if (search && list) {
  let asked: AbortController | undefined;
  let timer = 0;
  const find = async (): Promise<void> => {
    asked?.abort();
    asked = new AbortController();
    const query = new URLSearchParams([...new FormData(search)].map(([k, v]) => [k, String(v)]));
    history.replaceState(null, "", `/?${query}`);
    query.set("live", "yes");
    try {
      const response = await fetch(`/?${query}`, { signal: asked.signal });
      if (response.ok) list.innerHTML = await response.text();
    } catch {
      // the list stays as it was; the button still asks with a whole page
    }
  };
  search.addEventListener("input", () => {
    clearTimeout(timer);
    timer = window.setTimeout(() => void find(), 30);
  });
}
