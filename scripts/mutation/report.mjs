const isNoticed = ({ fate }) => fate === 'noticed' || fate === 'endless';

/** The part of the changes that were noticed, 0 to 1; NaN for none. */
export function shareNoticed(judged) {
  return judged.filter(isNoticed).length / judged.length;
}

/** What survived, line by line, then each file and the whole with its share. */
export function linesOf(judged) {
  const missed = judged.filter((change) => !isNoticed(change));
  const files = [...new Set(judged.map(({ file }) => file))];
  return [
    ...missed.map(
      ({ file, line, column, kind, replacement, fate }) =>
        `${file}:${line}:${column} ${fate} ${kind} ${replacement.replaceAll(/\s+/g, ' ').slice(0, 80)}`,
    ),
    ...files.map((file) =>
      sum(
        file,
        judged.filter((change) => change.file === file),
      ),
    ),
    sum('all', judged),
  ];
}

function sum(name, judged) {
  const missed = judged.length - judged.filter(isNoticed).length;
  const share = (100 * shareNoticed(judged)).toFixed(1);
  return `${name.padEnd(56)} ${share.padStart(5)} % of ${judged.length}, ${missed} missed`;
}
