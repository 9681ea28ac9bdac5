import { availableParallelism } from 'node:os';
import { describe, expect, it } from 'vitest';
import { isWanted, readRequest } from './arguments';

describe('what a benchmark is asked for', () => {
  it('is 60 seconds of everything where nothing else is said', () => {
    expect(readRequest(['jobshop'])).toMatchObject({
      command: 'jobshop',
      seconds: 60,
      seed: 1,
      workers: Math.min(8, availableParallelism()),
      only: [],
      record: false,
    });
  });

  it('is read from the options', () => {
    const request = readRequest([
      'operators',
      '--seconds',
      '5',
      '--only',
      'ft10, la*',
      '--operators=4,6',
      '--record',
      '--workers',
      '3',
    ]);
    expect(request).toMatchObject({ seconds: 5, only: ['ft10', 'la*'], operators: [4, 6], record: true, workers: 3 });
  });

  it.each([
    [[], 'Nothing to measure was named'],
    [['jobs'], '"jobs" is nothing to measure'],
    [['nights', 'long'], '"long" is one word too many'],
    [['nights', '--data', 'x'], '--data is no option of nights'],
    [['jobshop', '--second', '5'], '--second is no option of jobshop'],
    [['jobshop', '--seconds'], '--seconds needs a value'],
    [['jobshop', '--seconds', 'long'], '--seconds "long" must be a number from'],
    [['jobshop', '--seed', '1.5'], '--seed "1.5" must be a whole number'],
    [['jobshop', '--record=yes'], '--record takes no value'],
    [['nights', '--workers', '9'], '--workers "9" must be a whole number from 1 to 8'],
    [['operators', '--operators', '0'], '--operators "0" must be a whole number from 1'],
  ])('is refused with a sentence: %j', (args, say) => {
    expect(() => readRequest(args)).toThrow(say);
  });

  it('names instances as they stand or by a pattern', () => {
    expect(isWanted([], 'ta80')).toBe(true);
    expect(isWanted(['la*'], 'la07')).toBe(true);
    expect(isWanted(['la*'], 'hurink-edata-la07')).toBe(false);
    expect(isWanted(['*la07'], 'hurink-edata-la07')).toBe(true);
    expect(isWanted(['la1'], 'la10')).toBe(false);
    expect(isWanted(['f.06'], 'ft06')).toBe(false);
  });
});
