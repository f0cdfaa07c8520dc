import { parts } from './parts/parts.ts';
import { type AskedPart, toldPart } from './told-part.ts';

// A process of `truth`: the part that it is asked for, and an end.
process.once('message', (asked: AskedPart) => {
  const part = parts.find(({ name }) => name === asked.name);
  if (part === undefined) throw new TypeError(`no part ${asked.name}`);
  void toldPart(part, asked).then((told) =>
    process.send?.(told, () => {
      process.disconnect();
    }),
  );
});
