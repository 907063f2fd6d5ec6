/// <reference lib="dom" />
/** For a browser: what a page shows, with its colours. It runs in the page and knows nothing outside of itself. */

/** Every text that is shown, with its colour and what it stands on, as `#rrggbb`. */
export function texts(): { text: string; colour: string; back: string }[] {
  const hex = (colour: string): string | null => {
    const [red, green, blue, alpha] = (colour.match(/[\d.]+/g) ?? []).map(Number);
    if (red === undefined || alpha === 0) return null;
    return `#${[red, green!, blue!].map((part) => Math.round(part).toString(16).padStart(2, '0')).join('')}`;
  };
  const backOf = (element: Element): string => {
    for (let at: Element | null = element; at; at = at.parentElement) {
      const back = hex(getComputedStyle(at).backgroundColor);
      if (back) return back;
    }
    return '#ffffff';
  };
  const found: { text: string; colour: string; back: string }[] = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const element = walker.currentNode.parentElement!;
    const text = walker.currentNode.textContent!.trim();
    if (text === '' || element.closest('script, title') || element.getClientRects().length === 0) continue;
    const style = getComputedStyle(element);
    const drawn = element instanceof SVGElement;
    const body = element.closest('.bar:not(.key)')?.querySelector('.body');
    found.push({
      text,
      colour: hex(drawn ? style.fill : style.color)!,
      back: body ? hex(getComputedStyle(body).fill)! : backOf(element),
    });
  }
  return found;
}
