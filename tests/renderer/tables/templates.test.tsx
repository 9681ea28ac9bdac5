import { cleanup, screen, waitFor, within } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { JobsScreen } from '../../../renderer/tables';
import { SHOP } from './fake-services';
import { openTable } from './open-table';

afterEach(cleanup);

async function openJob() {
  const all = await openTable(<JobsScreen />);
  await all.user.click(screen.getByRole('button', { name: 'Details of J-1' }));
  return all;
}

const focusedAt = (): string | null => document.activeElement?.getAttribute('data-at') ?? null;

describe('the template of a family of parts', () => {
  it("is a job's route, saved under the name of its part to be typed over", async () => {
    const { services, user } = await openJob();
    const [job] = services.shop.jobs;
    await user.click(screen.getByRole('button', { name: 'Save route as template' }));
    expect(services.shop.templates).toEqual([
      { id: 'Insert', name: 'Insert', weight: 1, suspectLimit: 2, route: job?.route },
    ]);
    await waitFor(() => expect(focusedAt()).toBe('templates/Insert/id'));
    await user.keyboard('Caps{Enter}');
    expect(services.shop.templates[0]?.id).toBe('Caps');
    await user.click(screen.getByRole('button', { name: 'Save route as template' }));
    await user.click(screen.getByRole('button', { name: 'Save route as template' }));
    expect(services.shop.templates.map(({ id }) => id)).toEqual(['Caps', 'Insert', 'Insert-2']);
  });

  it('begins a new job, due a week ahead, under the number after the last', async () => {
    const { services, user } = await openJob();
    const [job] = services.shop.jobs;
    await user.click(screen.getByRole('button', { name: 'Save route as template' }));
    await user.selectOptions(screen.getByLabelText('New job of family'), 'Insert');
    expect(services.shop.jobs.at(-1)).toEqual({
      ...job,
      id: 'J-3',
      quantity: 1,
      due: '2026-12-02T16:00',
    });
    await waitFor(() => expect(focusedAt()).toBe('jobs/J-3/id'));
  });

  it('takes the route of another job in its place, and gets its own back', async () => {
    const { services, user } = await openJob();
    await user.click(screen.getByRole('button', { name: 'Save route as template' }));
    const before = services.shop.templates[0];
    await user.click(screen.getByRole('button', { name: 'Details of J-2' }));
    const [, ofSecond] = screen.getAllByLabelText('Save route in place of template');
    await user.selectOptions(ofSecond as HTMLElement, 'Insert');
    expect(services.shop.templates).toEqual([
      { ...before, weight: 1, suspectLimit: null, route: services.shop.jobs[1]?.route },
    ]);
    await user.click(screen.getByRole('button', { name: 'Undo' }));
    expect(services.shop.templates).toEqual([before]);
  });

  it('is deleted without a trace in the jobs it began', async () => {
    const route = SHOP.jobs?.[1]?.route ?? [];
    const { services, user } = await openTable(<JobsScreen />, { ...SHOP, templates: [{ id: 'Caps', route }] });
    const { jobs } = services.shop;
    await user.click(screen.getByRole('button', { name: 'Delete Caps' }));
    expect(services.shop.templates).toEqual([]);
    expect(services.shop.jobs).toBe(jobs);
    expect(screen.queryByLabelText('New job of family')).toBeNull();
    expect(within(screen.getByRole('region', { name: 'Templates' })).getByText(/^No templates yet\./)).toBeTruthy();
  });
});
