import { describe, expect, it } from 'vitest';
import { historyRows } from './history';
import { type Column, figure, heading, line } from './table';

const COLUMNS: readonly Column[] = [
  { title: 'name', width: 6, align: 'left' },
  { title: 'found', width: 5, align: 'right' },
];

describe('a table of results', () => {
  it('has its figures under each other at the right', () => {
    expect(`${heading(COLUMNS)}\n${line(COLUMNS, ['ft06', '55'])}\n${line(COLUMNS, ['ta80', '5183'])}`).toBe(
      ['name    found', '------  -----', 'ft06       55', 'ta80     5183'].join('\n'),
    );
  });

  it('has a dash where there is no figure', () => {
    expect(figure(null, 2)).toBe('-');
    expect(figure(0.126, 2)).toBe('0.13');
  });
});

describe('the history', () => {
  it('gets one row a set, with all columns of its table', () => {
    const setting = { date: '2026-11-25', commit: 'abc1234+', machine: '2 x Processor' };
    const request = { command: 'jobshop', seconds: 60, workers: 2, seed: 1 } as const;
    const all = { ...request, only: [], operators: [], data: null, json: null, record: true };
    const sets = [
      { set: 'ft', instances: 3, distance: 0.05, reached: 2 },
      { set: 'yn', instances: 4, distance: null, reached: 0 },
    ];
    expect(historyRows(setting, all, sets).split('\n')).toEqual([
      '| 2026-11-25 | abc1234+ | 2 x Processor | jobshop | ft | 3 | 60 | 2 | 1 | 0.050 | 2 |',
      '| 2026-11-25 | abc1234+ | 2 x Processor | jobshop | yn | 4 | 60 | 2 | 1 | - | 0 |',
      '',
    ]);
  });
});
