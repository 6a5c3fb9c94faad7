/** One column as the layout library wants it: boxes with fixed ports, and edges between the ports. */
import type { ElkExtendedEdge, ElkNode, ElkPort } from 'elkjs/lib/elk.bundled.js';
import type { Box, BoxExit } from './box.ts';

export const GAP = 18;
/** How far from a box's corner lines come in from the side. */
const SIDE = 26;

const OPTIONS = {
  'elk.algorithm': 'layered',
  'elk.direction': 'DOWN',
  'elk.edgeRouting': 'ORTHOGONAL',
  'elk.padding': '[top=0,left=0,bottom=0,right=0]',
  'elk.layered.spacing.nodeNodeBetweenLayers': `${GAP}`,
  'elk.layered.spacing.edgeNodeBetweenLayers': '6',
  'elk.layered.spacing.edgeEdgeBetweenLayers': '4',
  'elk.spacing.edgeNode': '9',
  'elk.spacing.edgeEdge': '6',
  'elk.layered.considerModelOrder.strategy': 'NODES_AND_EDGES',
  'elk.layered.nodePlacement.strategy': 'NETWORK_SIMPLEX',
};

/** An exit whose target stands in the same column. */
export interface Inner {
  from: Box;
  exit: BoxExit & { to: number };
}

type Side = 'NORTH' | 'SOUTH' | 'EAST' | 'WEST';

/** The first edges are those of `inner`, in the same order. */
export function graphOf(boxes: Box[], inner: Inner[], seed: number): ElkNode {
  const ports = new Map<number, ElkPort[]>(boxes.map(({ index }) => [index, []]));
  const port = ({ index }: { index: number }, name: string, side: Side, x: number, y: number): string => {
    const of = ports.get(index)!;
    const id = `${index}:${name}`;
    if (!of.some(other => other.id === id)) {
      of.push({ id, x, y, width: 0, height: 0, layoutOptions: { 'elk.port.side': side } });
    }
    return id;
  };
  const below = (box: Box) => port(box, 'below', 'SOUTH', box.width / 2, box.height);
  const above = (box: { index: number; width: number }, name: 'left' | 'middle' | 'right') =>
    port(box, name, 'NORTH', { left: SIDE, middle: box.width / 2, right: box.width - SIDE }[name], 0);

  const edges = inner.map(({ from, exit }, index): ElkExtendedEdge => {
    const to = { index: exit.to, width: from.width };
    if (exit.how === 'past')
      return edge(`${index}`, port(from, 'past', 'WEST', 0, exit.y), above(to, 'left'), 0);
    if (exit.to === from.index + 1) return edge(`${index}`, below(from), above(to, 'middle'), 50);
    const east = port(from, `to ${exit.to}`, 'EAST', from.width, Math.min(exit.y, from.height - 8));
    return edge(`${index}`, east, above(to, 'right'), 0);
  });
  // Unseen edges keep the order of the file: each box under the one before it.
  const order = boxes
    .slice(1)
    .map((box, index) => edge(`order ${index}`, below(boxes[index]!), above(box, 'middle'), 100));
  return {
    id: 'column',
    layoutOptions: { ...OPTIONS, 'elk.randomSeed': `${seed}` },
    children: boxes.map(({ index, width, height }) => ({
      id: `${index}`,
      width,
      height,
      ports: ports.get(index),
      layoutOptions: { 'elk.portConstraints': 'FIXED_POS' },
    })),
    edges: [...edges, ...order],
  };
}

const edge = (id: string, source: string, target: string, straightness: number): ElkExtendedEdge => ({
  id,
  sources: [source],
  targets: [target],
  layoutOptions: { 'elk.layered.priority.straightness': `${straightness}` },
});
