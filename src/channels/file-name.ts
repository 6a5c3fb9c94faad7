/** A file's name, only to be shown: no folders, nothing invisible, not too long. */
export const fileName = (given: string): string =>
  [
    ...(given
      .split(/[/\\]/)
      .at(-1)!
      .replace(/[\p{Cc}\p{Cf}]/gu, '')
      .trim() || 'file'),
  ]
    .slice(0, 80)
    .join('');
