/** What still matters at a state, and the ways out of an interrupt's questions, from what lies behind each move. */
import { costOf, type Edge, type Exit, isUnsure, type Node } from './graph.ts';
import { andThen, NO_CHANGE, readAlso, same, within } from './vectors.ts';

/**
 * Takes over what lies behind the moves of `node`. `outer`: 1 for what can be read after the interrupt's questions.
 * Tells whether anything was news; states that lead round to each other are gathered until nothing is.
 */
export function gather(node: Node, outer: readonly number[]): boolean {
  let news = false;
  for (const { edge, entry } of node.calls) if (read(node, edge, entry)) news = true;
  for (const edge of node.edges) {
    const to = edge.to?.same ?? edge.to;
    if (read(node, edge, to)) news = true;
    const asked = edge.move.kind === 'answer' ? 1 : 0;
    const cost = costOf(edge);
    if (to === null && edge.outcome === null) {
      const writes = within(edge.writes, outer);
      if (leave(node, { writes, cost, most: asked, edge, next: null })) news = true;
    }
    if (to === null || to.exits.length === 0) continue;
    for (const next of to.exits) {
      const writes = within(andThen(edge.writes, next.writes), outer);
      // Words for danger may come again and again; the longest way counts the flow's own questions.
      const most = edge.through === null ? next.most + asked : 0;
      if (leave(node, { writes, cost: cost + next.cost, most, edge, next })) news = true;
    }
  }
  return news;
}

function read(node: Node, edge: Edge, behind: Node | null): boolean {
  const news = readAlso(node.reads, edge.reads, NO_CHANGE);
  return (behind !== null && readAlso(node.reads, behind.reads, edge.writes)) || news;
}

function leave(node: Node, exit: Exit): boolean {
  const { mask, value } = exit.writes;
  const unsure = isUnsure(exit);
  const known = node.exits.find(
    other => isUnsure(other) === unsure && same(other.writes.mask, mask) && same(other.writes.value, value),
  );
  if (known === undefined) {
    node.exits.push(exit);
    return true;
  }
  const nearer = exit.cost < known.cost;
  const longer = exit.most > known.most;
  if (nearer) Object.assign(known, { ...exit, most: known.most });
  if (longer) known.most = exit.most;
  return nearer || longer;
}
