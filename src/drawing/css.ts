/** The style sheet inside every picture. */
import { COLOURS as c, STYLES } from './look.ts';

export function css(): string {
  const texts = Object.entries(STYLES).map(
    ([name, { size, weight, colour }]) =>
      `.${name}{font-size:${size}px;font-weight:${weight === 'strong' ? 600 : 400};fill:${c[colour]}}`,
  );
  return [
    ...texts,
    `.outline,.strip{stroke:${c.line};stroke-width:1.2}`,
    `.outline{fill:${c.sheet}}.strip{fill:${c.soft}}`,
    `.hair{stroke:${c.hair};fill:none}.disc{fill:${c.quiet}}`,
    `.inner{fill:none;stroke:${c.quiet};stroke-width:1}`,
    `.try .outline,.try .strip{stroke:${c.quiet}}`,
    `.visit .outline,.visit .strip{stroke:${c.act}}.visit .disc{fill:${c.act}}`,
    `.caution .outline{fill:${c.care}}.caution .outline,.caution .strip{stroke:${c.careLine}}.caution .disc{fill:${c.careLine}}`,
    `.caution .edge{stroke:${c.careLine};stroke-width:4}`,
    `.hand-over .outline{fill:${c.act}}.hand-over .outline,.hand-over .strip{stroke:${c.act}}`,
    `.hand-over .disc{fill:${c.sheet}}.hand-over .number{fill:${c.act}}`,
    `.end .outline{fill:${c.hair}}.end .outline,.end .strip{stroke:${c.quiet}}`,
    `.say .outline{fill:${c.paper};stroke:${c.hair}}.say .edge{stroke:${c.line};stroke-width:2.5}.say .strip{stroke:${c.hair}}`,
    `.line{fill:none;stroke:${c.line};stroke-width:1.3;stroke-linejoin:round}.past{stroke-dasharray:3 2.5}`,
    `.pennant{fill:${c.stop};stroke:${c.stop};stroke-width:1.2}.pennant.open{fill:none}`,
    `.warning{fill:none;stroke:${c.careLine};stroke-width:1.2}.tick{fill:none;stroke:${c.good};stroke-width:1.8}`,
    `.bar{fill:none;stroke:${c.act}}.bar.full{fill:${c.act}}`,
    `.small .outline{stroke-width:2.4}`,
    `.tag-shape{fill:${c.sheet};stroke:${c.act}}`,
    // Where the viewer follows links, a tag leads to its box.
    `.box:target .outline{stroke:${c.act};stroke-width:3}`,
  ].join('');
}
