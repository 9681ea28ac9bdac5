import { cleanup, screen } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { JobsScreen } from '../../../renderer/tables';
import { openTable } from './open-table';

afterEach(cleanup);

async function opened() {
  const all = await openTable(<JobsScreen />);
  const { user, services } = all;
  await user.click(screen.getByRole('button', { name: 'Details of J-1' }));
  await user.click(screen.getByRole('button', { name: /^Tools, checks, odds and proof of operation 10: / }));
  return {
    ...all,
    job: () => services.shop.jobs[0]!,
    operation: () => services.shop.jobs[0]!.route[0]!,
    async type(label: string, text: string): Promise<void> {
      await user.clear(screen.getAllByLabelText(label)[0]!);
      await user.type(screen.getAllByLabelText(label)[0]!, `${text}{Enter}`);
    },
  };
}

describe('what the run sheet says of an operation', () => {
  it('takes what to measure and what to do when a run stops', async () => {
    const { operation, type, user } = await opened();
    await type('What to measure', 'Bore 12 H7');
    await user.selectOptions(screen.getByLabelText('If it stops'), 'leave it standing');
    expect(operation()).toMatchObject({ measure: 'Bore 12 H7', ifStops: 'leave' });
  });

  it('dates a correction when it is typed, takes its reason, and forgets it when its text is taken away', async () => {
    const { operation, services, type, user } = await opened();
    expect(screen.queryByLabelText('Why it was corrected')).toBeNull();
    await type('Last correction', 'Z 0.02 deeper');
    const today = services.shop.planFrom?.slice(0, 10);
    expect(operation().correction).toEqual({ text: 'Z 0.02 deeper', why: '', at: today });
    await type('Why it was corrected', 'floor was high');
    await type('Date of the correction', '20 Nov');
    expect(operation().correction).toEqual({ text: 'Z 0.02 deeper', why: 'floor was high', at: '2026-11-20' });
    await user.clear(screen.getByLabelText('Last correction'));
    await user.keyboard('{Enter}');
    expect(operation().correction).toBeNull();
  });

  it('takes the spare blanks of a job as a whole number, and says why half a one is refused', async () => {
    const { job, type } = await opened();
    await type('Spare blanks', '3');
    expect(job().spareBlanks).toBe(3);
    await type('Spare blanks', '1.5');
    expect(job().spareBlanks).toBe(3);
    expect(screen.getByRole('alert').textContent).toContain('whole');
  });
});
