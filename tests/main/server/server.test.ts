import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { WebSocket } from 'ws';
import { type LoopbackServer, serveLoopback } from '../../../main/server';
import { benchWith } from '../../support/services-for-test';
import { tempFolder } from '../../support/temp-folder';

interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly body: string;
}

/** Node's own client sends any path and host as it is told, as an attacker's would. */
function get(port: number, path: string, headers: Record<string, string> = {}, method = 'GET'): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const sent = request({ host: '127.0.0.1', port, path, headers, method }, (response) => {
      let body = '';
      response.on('data', (part) => {
        body += part;
      });
      response.on('end', () => resolve({ status: response.statusCode ?? 0, headers: response.headers, body }));
    });
    sent.on('error', reject);
    sent.end();
  });
}

/** A server on screens of its own: an index, a script, and a file outside that nobody may read. */
async function served() {
  const bench = await benchWith();
  const outside = tempFolder();
  const root = join(outside, 'screens');
  mkdirSync(join(root, 'assets'), { recursive: true });
  writeFileSync(join(outside, 'secret.json'), '"secret"');
  writeFileSync(join(root, 'index.html'), '<!doctype html><title>Screens</title>');
  writeFileSync(join(root, 'assets', 'app.js'), 'export {};');
  symlinkSync(join(outside, 'secret.json'), join(root, 'link.json'));
  const server = await serveLoopback(bench.services, root, 0);
  onTestFinished(() => server.close());
  return { bench, root, server, cookie: await cookieOf(server) };
}

async function cookieOf({ port, address }: LoopbackServer): Promise<string> {
  const welcome = await get(port, new URL(address).pathname + new URL(address).search);
  return String(welcome.headers['set-cookie']).split(';')[0] ?? '';
}

type Ending = { readonly kind: 'open'; readonly socket: WebSocket } | { readonly kind: 'refused' };

function connect(port: number, headers: Record<string, string>, path = '/api'): Promise<Ending> {
  const socket = new WebSocket(`ws://127.0.0.1:${port}${path}`, { headers });
  onTestFinished(() => socket.terminate());
  return new Promise((resolve) => {
    socket.on('open', () => resolve({ kind: 'open', socket }));
    socket.on('error', () => resolve({ kind: 'refused' }));
  });
}

describe('the loopback server', () => {
  it('gives the screens to who came with the key, and the key stays in a cookie', async () => {
    const { server, cookie } = await served();
    const welcome = await get(server.port, new URL(server.address).search.replace(/^/, '/'));
    expect(welcome.headers['set-cookie']?.toString()).toMatch(/; HttpOnly; SameSite=Strict; Path=\/$/);
    expect(welcome.body).toContain('url=/');
    const index = await get(server.port, '/', { cookie });
    expect(index).toMatchObject({ status: 200, body: '<!doctype html><title>Screens</title>' });
    const script = await get(server.port, '/assets/app.js', { cookie });
    expect(script.headers['content-type']).toMatch(/^text\/javascript/);
  });

  it('gives nothing without the key, with a wrong one or with a part of it', async () => {
    const { server, cookie } = await served();
    const cookies = ['', `${cookie.slice(0, -1)}`, `${cookie}x`, 'nightload-1=x'];
    for (const wrong of cookies) expect((await get(server.port, '/', { cookie: wrong })).status).toBe(403);
    expect((await get(server.port, '/?key=')).status).toBe(403);
    expect((await get(server.port, '/?key=guess')).body).toMatch(/Open the address that the program printed/);
  });

  it('has a new key each time', async () => {
    const [one, other] = [await served(), await served()];
    expect(one.server.address.split('=')[1]).not.toBe(other.server.address.split('=')[1]);
    expect(one.server.address.split('=')[1]?.length).toBeGreaterThanOrEqual(32);
  });

  it('refuses a host that was made to point here, and pages of another origin', async () => {
    const { server, cookie } = await served();
    const port = server.port;
    expect((await get(port, '/', { cookie, host: `shop.example:${port}` })).status).toBe(403);
    expect((await get(port, '/', { cookie, host: '127.0.0.1' })).status).toBe(403);
    expect((await get(port, '/', { cookie, origin: 'http://shop.example' })).status).toBe(403);
    expect((await get(port, '/', { cookie, origin: 'null' })).status).toBe(403);
    expect((await get(port, '/', { cookie, host: `localhost:${port}` })).status).toBe(200);
  });

  it('never reads outside the screens', async () => {
    const { server, cookie } = await served();
    const paths = [
      '/../secret.json',
      '/..%2fsecret.json',
      '/%2e%2e/secret.json',
      '/assets/../../secret.json',
      '/..\\secret.json',
      '/..%5csecret.json',
      '//etc/passwd',
      '/link.json',
      '/index.html%00.js',
      '/%zz.js',
      '/assets',
    ];
    for (const path of paths) {
      const answer = await get(server.port, path, { cookie });
      expect([path, answer.status]).toEqual([path, 404]);
      expect(answer.body).not.toContain('secret');
    }
  });

  it('only reads', async () => {
    const { server, cookie } = await served();
    expect((await get(server.port, '/', { cookie }, 'POST')).status).toBe(405);
    expect((await get(server.port, '/', { cookie }, 'HEAD')).status).toBe(200);
  });

  it('sends a strict content policy and keeps pages out of frames', async () => {
    const { server, cookie } = await served();
    for (const path of ['/', '/no-such.js', new URL(server.address).search.replace(/^/, '/')]) {
      const { headers } = await get(server.port, path, { cookie });
      expect(headers['content-security-policy']).toMatch(/^default-src 'none'; script-src 'self';/);
      expect(headers['content-security-policy']).not.toMatch(/unsafe/);
      expect(headers).toMatchObject({
        'x-content-type-options': 'nosniff',
        'x-frame-options': 'DENY',
        'referrer-policy': 'no-referrer',
      });
    }
  });

  it('says which port is taken, and which number is none', async () => {
    const { bench, root, server } = await served();
    await expect(serveLoopback(bench.services, root, server.port)).rejects.toThrow(/is taken by another program/);
    for (const port of [-1, 1.5, 70_000, Number.NaN]) {
      await expect(serveLoopback(bench.services, root, port)).rejects.toThrow(/is no port/);
    }
  });
});

describe('the contract over the socket', () => {
  it('answers calls by their number and tells events', async () => {
    const { server, cookie } = await served();
    const origin = `http://127.0.0.1:${server.port}`;
    const ending = await connect(server.port, { cookie, origin });
    if (ending.kind === 'refused') throw new Error('refused');
    const heard: unknown[] = [];
    ending.socket.on('message', (data) => heard.push(JSON.parse(String(data))));
    ending.socket.send(JSON.stringify({ id: 7, call: 'shop.remove', sent: { table: 'jobs', id: 'B' } }));
    ending.socket.send(JSON.stringify({ id: 8, call: 'shop.burn', sent: null }));
    await expect.poll(() => heard).toHaveLength(3);
    expect(heard).toContainEqual({ event: 'shop.changed', data: { revision: 2 } });
    expect(heard).toContainEqual({ id: 7, reply: expect.objectContaining({ ok: true }) });
    expect(heard).toContainEqual({
      id: 8,
      reply: { ok: false, faults: [expect.objectContaining({ code: 'no-such-call' })] },
    });
  });

  it('is closed to who has no key, no origin, another origin or another path', async () => {
    const { server, cookie } = await served();
    const origin = `http://127.0.0.1:${server.port}`;
    expect(await connect(server.port, { origin })).toEqual({ kind: 'refused' });
    expect(await connect(server.port, { cookie })).toEqual({ kind: 'refused' });
    expect(await connect(server.port, { cookie, origin: 'http://shop.example' })).toEqual({ kind: 'refused' });
    for (const path of ['/other', '//', '/api/../..']) {
      expect(await connect(server.port, { cookie, origin }, path)).toEqual({ kind: 'refused' });
    }
  });

  it('is closed by a message that is no request', async () => {
    const { server, cookie } = await served();
    const ending = await connect(server.port, { cookie, origin: `http://127.0.0.1:${server.port}` });
    if (ending.kind === 'refused') throw new Error('refused');
    const closed = new Promise((resolve) => ending.socket.on('close', resolve));
    ending.socket.send('{"id":"seven"');
    expect(await closed).toBe(1007);
  });
});
