import { allRoutes } from '@tackboard/contract';
import { describe, expect, it } from 'vitest';
import { projectFiles, textOf } from './tracked.js';

/** What a machine is told to do; the tool informs and records and tells a machine nothing. */
const orders =
  /\b(start|stop|select|unlock|lock|arm|release|enable|disable|jog|move|run|upload|download|send)\w*\s+(the\s+|a\s+)?(robot|machine|power source|welder's torch|controller|program)\b/i;

/** Modules that open a connection of their own: a server that answers needs none of them. */
const ways =
  /from '(?:node:)?(net|dgram|tls|http2|child_process|cluster|serialport|modbus[\w-]*|node-opcua[\w-]*|mqtt|ws|undici|axios)'|\bfetch\(|\bhttps?\.(request|get)\(/;

const code = (folder: string) =>
  projectFiles().filter(
    (file) => file.startsWith(folder) && file.endsWith('.ts') && !file.endsWith('.test.ts'),
  );

describe('nothing here signals a machine', () => {
  it('no operation offers to start, select or unlock anything on one', () => {
    const offered = allRoutes.filter(({ summary }) => orders.test(summary));
    expect(offered.map(({ id, summary }) => `${id}: ${summary}`)).toEqual([]);
    const resources = allRoutes.filter(({ path }) =>
      /\/(start|unlock|jog|enable|controllers?|robots?|machines?|signals?|outputs?)\b/.test(path),
    );
    expect(resources.map(({ path }) => path)).toEqual([]);
    expect(allRoutes.length).toBeGreaterThan(50);
  });

  it('no text on a screen offers it', () => {
    const texts = projectFiles().filter((file) => /^apps\/web\/messages\/en\/.*\.json$/.test(file));
    const offered = texts.flatMap((file) =>
      Object.entries(JSON.parse(textOf(file)) as Record<string, string>)
        .filter(([, text]) => orders.test(text) && !/never/i.test(text))
        .map(([key, text]) => `${key}: ${text}`),
    );
    expect(texts.length).toBeGreaterThan(3);
    expect(offered).toEqual([]);
  });

  it('the service opens no connection: it is asked and answers', () => {
    const files = code('apps/api/src/');
    expect(files.length).toBeGreaterThan(50);
    expect(files.filter((file) => ways.test(textOf(file)))).toEqual([]);
  });

  it.each(['Start the robot', 'Select the program at R1', 'unlock the machine'])(
    'would notice "%s"',
    (text) => expect(text).toMatch(orders),
  );
});
