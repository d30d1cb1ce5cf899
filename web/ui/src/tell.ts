// Says something to those who hear the page, once.

const status = document.createElement("p");
status.setAttribute("role", "status");
status.className = "unseen";
document.body.append(status);

export function tell(text: string): void {
  if (status.textContent !== text) status.textContent = text;
}
