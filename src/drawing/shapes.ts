/** Outlines of boxes, as SVG path data. `top` is false where a strip stands on the box: its upper corners are square then. */
import type { BoxKind } from './box.ts';

export const CORNER = 7;
/** How far a hand-over points out of its column. */
export const POINT = 10;
const CUT = 9;

export function outlineOf(kind: BoxKind, width: number, height: number, top: boolean): string {
  switch (kind) {
    case 'try':
      return cut(width, height, top);
    case 'hand-over':
      return pointed(width, height, top);
    case 'end':
      return rounded(width, height, top, Math.min(14, height / 2));
    default:
      return rounded(width, height, top);
  }
}

export function rounded(w: number, h: number, top: boolean, r = CORNER): string {
  const upper = top ? `M${r} 0H${w - r}A${r} ${r} 0 0 1 ${w} ${r}` : `M0 0H${w}`;
  return `${upper}V${h - r}A${r} ${r} 0 0 1 ${w - r} ${h}H${r}A${r} ${r} 0 0 1 0 ${h - r}${top ? `V${r}A${r} ${r} 0 0 1 ${r} 0` : ''}Z`;
}

/** Cut corners: something is done here. */
function cut(w: number, h: number, top: boolean): string {
  const upper = top ? `M${CUT} 0H${w - CUT}L${w} ${CUT}` : `M0 0H${w}`;
  return `${upper}V${h - CUT}L${w - CUT} ${h}H${CUT}L0 ${h - CUT}${top ? `V${CUT}` : ''}Z`;
}

/** Points to the right: away from here. */
function pointed(w: number, h: number, top: boolean): string {
  const r = CORNER;
  const upper = top ? `M${r} 0H${w - POINT}` : `M0 0H${w - POINT}`;
  return `${upper}L${w} ${h / 2}L${w - POINT} ${h}H${r}A${r} ${r} 0 0 1 0 ${h - r}${top ? `V${r}A${r} ${r} 0 0 1 ${r} 0` : ''}Z`;
}

/** The strip with the condition, on top of a box. */
export const strip = (kind: BoxKind, width: number, height: number): string => {
  const w = kind === 'hand-over' ? width - POINT : width;
  return `M0 ${height}V${CORNER}A${CORNER} ${CORNER} 0 0 1 ${CORNER} 0H${w - CORNER}A${CORNER} ${CORNER} 0 0 1 ${w} ${CORNER}V${height}Z`;
};
