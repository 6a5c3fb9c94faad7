/** True for what is met for the first time: alarms and blocks stand in many flows, and are the same in all of them. */
export function firstTime(): (what: unknown) => boolean {
  const met = new Set<string>();
  return what => met.size < met.add(JSON.stringify(what)).size;
}
