/**
 * Makes an element like another, which is used up, and touches only what differs: a reader keeps the place, a table
 * its position, and nothing flashes.
 */
export function become(old: Element, fresh: Element): void {
  if (old.isEqualNode(fresh)) return;
  for (const { name } of [...old.attributes]) if (!fresh.hasAttribute(name)) old.removeAttribute(name);
  for (const { name, value } of [...fresh.attributes]) {
    if (old.getAttribute(name) !== value) old.setAttribute(name, value);
  }
  const [now, then] = [[...old.childNodes], [...fresh.childNodes]];
  for (const [i, next] of then.entries()) {
    const here = now[i];
    if (here === undefined) old.append(next);
    else if (here instanceof Element && next instanceof Element && here.tagName === next.tagName) {
      become(here, next);
    } else if (!here.isEqualNode(next)) here.replaceWith(next);
  }
  for (const extra of now.slice(then.length)) extra.remove();
}
