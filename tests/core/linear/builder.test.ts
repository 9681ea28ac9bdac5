import { describe, expect, it } from 'vitest';
import { LinearProgramBuilder } from '../../../core/linear';

describe('building a linear program', () => {
  it('sorts terms by row whatever their order, and adds up those of one row and column', () => {
    const builder = new LinearProgramBuilder('maximise');
    const [x, y] = [builder.column(1), builder.column(2)];
    const [first, second] = [builder.atMost(10), builder.row(-1, 7)];
    builder.term(second, y, 4);
    builder.term(first, y, 2);
    builder.term(second, x, 3);
    builder.term(second, y, 0.5);
    const program = builder.build();
    expect([...program.rowStart]).toEqual([0, 1, 3]);
    expect([...program.termColumn]).toEqual([y, y, x]);
    expect([...program.termValue]).toEqual([2, 4.5, 3]);
    expect([...program.rowLower]).toEqual([-Infinity, -1]);
    expect([...program.rowUpper]).toEqual([10, 7]);
  });

  it('leaves out terms that cancel, and keeps the next rows right', () => {
    const builder = new LinearProgramBuilder('minimise');
    const [x, y] = [builder.column(1), builder.column(1)];
    const rows = [builder.equal(0), builder.equal(5), builder.equal(6)];
    builder.term(rows[0]!, x, 2);
    builder.term(rows[0]!, y, 1);
    builder.term(rows[0]!, x, -2);
    builder.term(rows[0]!, y, -1);
    builder.term(rows[2]!, x, 7);
    builder.term(rows[2]!, y, 8);
    const program = builder.build();
    expect([...program.rowStart]).toEqual([0, 0, 0, 2]);
    expect([...program.termColumn]).toEqual([x, y]);
    expect([...program.termValue]).toEqual([7, 8]);
  });

  it('holds thousands of columns', () => {
    const builder = new LinearProgramBuilder('minimise');
    const row = builder.atLeast(1);
    for (let j = 0; j < 5000; j++) builder.term(row, builder.column(j), j + 1);
    const program = builder.build();
    expect(program.columns).toBe(5000);
    expect(program.cost[4999]).toBe(4999);
    expect(program.termValue[4999]).toBe(5000);
  });

  it('narrows the bounds of an integer column to whole numbers', () => {
    const builder = new LinearProgramBuilder('minimise');
    builder.column(1, { lower: 0.2, upper: 3.9, integer: true });
    builder.column(1, { lower: 0.2, upper: 3.9 });
    // 0.1 + 0.2 is 0.30000000000000004: ten times that is meant to be 3.
    builder.column(1, { lower: (0.1 + 0.2) * 10, integer: true });
    const program = builder.build();
    expect([...program.lower]).toEqual([1, 0.2, 3]);
    expect([...program.upper]).toEqual([3, 3.9, Infinity]);
  });

  it('keeps names for the reader', () => {
    const builder = new LinearProgramBuilder('minimise');
    const x = builder.column(1, { name: 'run 1 on mill A' });
    const row = builder.atMost(480, 'mill A, Monday night');
    const program = builder.build();
    expect(program.columnNames.get(x)).toBe('run 1 on mill A');
    expect(program.rowNames.get(row)).toBe('mill A, Monday night');
  });

  it('refuses what is no number and rows or columns that were never added', () => {
    const builder = new LinearProgramBuilder('minimise');
    const x = builder.column(1);
    const row = builder.atMost(1);
    expect(() => builder.column(Number.NaN)).toThrow(RangeError);
    expect(() => builder.column(Infinity)).toThrow('cost Infinity is no number');
    expect(() => builder.column(1, { upper: Number.NaN, name: 'late' })).toThrow('column late');
    expect(() => builder.column(1, { lower: Infinity })).toThrow(RangeError);
    expect(() => builder.atMost(-Infinity)).toThrow('row 1');
    expect(() => builder.equal(Number.NaN)).toThrow(RangeError);
    expect(() => builder.term(row, x, Infinity)).toThrow(RangeError);
    expect(() => builder.term(row + 1, x, 1)).toThrow('there is no row 1');
    expect(() => builder.term(row, x + 1, 1)).toThrow('there is no column 1');
    expect(() => builder.term(row, -1, 1)).toThrow(RangeError);
    expect(() => builder.term(row, x, 1)).not.toThrow();
  });
});
