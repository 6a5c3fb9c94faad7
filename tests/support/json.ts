/**
 * What the outside sends and tests look into: activities, blocks, damaged files, the world of a page. It has as many shapes as the
 * protocols, and whoever looks wrongly has a test that fails.
 */
export type Json = ReturnType<typeof JSON.parse>;
