// The program's SVG, taken in safely: parsed as XML and rebuilt from the few elements and
// attributes that its drawings are made of. Anything else is refused with the whole figure.

const ELEMENTS = new Set([
  "svg", "g", "line", "polyline", "polygon", "rect", "circle", "ellipse", "path", "text", "tspan",
  "title", "desc", "defs", "pattern", "clipPath",
]);
const ATTRIBUTES = new Set([
  "id", "class", "viewBox", "width", "height", "x", "y", "x1", "y1", "x2", "y2", "cx", "cy", "r",
  "rx", "ry", "d", "points", "transform", "fill", "fill-opacity", "fill-rule", "stroke",
  "stroke-width", "stroke-dasharray", "stroke-linejoin", "stroke-linecap", "stroke-opacity",
  "opacity", "font-family", "font-size", "font-weight", "font-style", "text-anchor",
  "dominant-baseline", "letter-spacing", "dx", "dy", "role", "lang", "xml:lang", "xml:space",
  "xmlns", "version", "data-part", "data-lead", "data-join", "data-kind", "clip-path",
  "patternUnits", "patternTransform", "vector-effect", "paint-order", "textLength", "lengthAdjust",
]);
const SVG = "http://www.w3.org/2000/svg";

function copy(from: Element): SVGElement {
  if (from.namespaceURI !== SVG || !ELEMENTS.has(from.localName))
    throw new Error(`the figure holds <${from.nodeName}>, which is refused`);
  const made = document.createElementNS(SVG, from.localName);
  for (const { name, value } of Array.from(from.attributes)) {
    if (name === "xmlns" || name.startsWith("aria-")) continue;
    const is_elsewhere = /url\s*\((?!\s*#)/i.test(value) || /^\s*[a-z]+script:/i.test(value);
    if (!ATTRIBUTES.has(name) || is_elsewhere)
      throw new Error(`the figure holds the attribute ${name}, which is refused`);
    made.setAttribute(name, value);
  }
  for (const child of Array.from(from.childNodes)) {
    if (child.nodeType === Node.ELEMENT_NODE) made.append(copy(child as Element));
    else if (child.nodeType === Node.TEXT_NODE) made.append(child.nodeValue ?? "");
  }
  return made;
}

export function figureOf(svg: string): SVGSVGElement {
  const read = new DOMParser().parseFromString(svg, "image/svg+xml");
  if (read.querySelector("parsererror")) throw new Error("the figure is not whole");
  return copy(read.documentElement) as SVGSVGElement;
}
