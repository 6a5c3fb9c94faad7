/** Steps in columns, read like a newspaper: down the first, then down the next. */

/** First index of each column, so that the highest of `count` columns is as low as can be. */
export function columnsOf(heights: readonly number[], count: number, gap: number): number[] {
  const all = heights.reduce((sum, height) => sum + height + gap, 0);
  let low = Math.max(...heights) + gap;
  let high = all;
  while (high - low > 1) {
    const middle = (low + high) / 2;
    if (filled(heights, middle, gap).length <= count) high = middle;
    else low = middle;
  }
  return filled(heights, high, gap);
}

function filled(heights: readonly number[], limit: number, gap: number): number[] {
  const starts = [0];
  let height = 0;
  heights.forEach((each, index) => {
    if (height > 0 && height + each + gap > limit) {
      starts.push(index);
      height = 0;
    }
    height += each + gap;
  });
  return starts;
}
