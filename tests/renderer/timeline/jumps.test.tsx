import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { useState } from 'react';
import { afterEach, describe, expect, it } from 'vitest';
import { indexPlan, type Selection, Timeline } from '../../../renderer/timeline';
import { at, planView } from '../support/plan-view';

const index = indexPlan(planView());

function Owner({ nowMin }: { readonly nowMin: number }) {
  const [selection, setSelection] = useState<Selection | null>(null);
  return <Timeline {...{ index, nowMin, selection }} onSelect={setSelection} />;
}

function open(nowMin = at(0, '13:30')) {
  render(<Owner nowMin={nowMin} />);
  return (key: string): string => {
    fireEvent.keyDown(screen.getByRole('application'), { key });
    return screen.getByRole('status').textContent ?? '';
  };
}

afterEach(cleanup);

describe('jumps on the timeline', () => {
  it('lead to the next attendance of anybody, and again to the one after, each read out', () => {
    const press = open();
    expect(press('a')).toMatch(/^Wed 13:40, Anna: Load P-02, J-104 on M1\. J-104 Cavity insert\./);
    expect(press('a')).toMatch(/^Wed 14:00, Anna: Load P-08, J-103 on G1\./);
    expect(press('a')).toMatch(/^Wed 15:05, Ben: Unload P-01, J-104 on M1\./);
  });

  it('begin again from now once something else is selected', () => {
    const press = open();
    press('a');
    press('a');
    expect(press('ArrowRight')).not.toContain('Anna: Load P-08');
    expect(press('a')).toMatch(/^Wed 13:40, Anna/);
  });

  it('say that there is no later attendance', () => {
    const press = open(at(1, '11:00'));
    expect(press('a')).toMatch(/^Thu 11:40, Anna: Unload P-07/);
    expect(press('a')).toMatch(/^No later attendance in this plan\./);
    cleanup();
    expect(open(at(2, '11:00'))('a')).toBe('No later attendance in this plan.');
  });

  it('go along the rows of people from the attendance reached', async () => {
    const press = open();
    await userEvent.setup().click(screen.getByRole('button', { name: 'People' }));
    press('a');
    press('a');
    press('a');
    expect(press('a')).toMatch(/^Wed 15:20, Ben: Load P-03/);
    // J-112/10/1 has three attendances: the arrow goes on from its loading, not from its first bar of any person.
    expect(press('ArrowRight')).toMatch(/^J-110 Die plate\. op 10, run 1 of 2/);
  });
});

describe('the keys of the timeline', () => {
  it('are shown in place by question mark or button, and put away by Escape', async () => {
    const press = open();
    expect(screen.queryByRole('region', { name: 'Keys of the timeline' })).toBeNull();
    press('?');
    const panel = screen.getByRole('region', { name: 'Keys of the timeline' });
    expect(panel.textContent).toContain('the next attendance, and the one after');
    expect(panel.textContent).not.toContain('take up the selected run');
    press('Escape');
    expect(screen.queryByRole('region', { name: 'Keys of the timeline' })).toBeNull();
    const button = screen.getByRole('button', { name: 'Keys' });
    await userEvent.setup().click(button);
    expect(button.getAttribute('aria-expanded')).toBe('true');
  });

  it('name moving where runs can be moved', () => {
    render(<Timeline {...{ index, nowMin: 0, selection: null }} onSelect={() => {}} onMove={() => {}} />);
    fireEvent.keyDown(screen.getByRole('application'), { key: '?' });
    expect(screen.getByRole('region', { name: 'Keys of the timeline' }).textContent).toContain('take up the selected');
  });
});

describe('the rows of the timeline', () => {
  it('are chosen by what they are for', async () => {
    const user = userEvent.setup();
    open();
    expect(screen.getByText('Horizontal mill')).toBeDefined();
    await user.click(screen.getByRole('button', { name: 'Pallets' }));
    expect(screen.queryByText('Horizontal mill')).toBeNull();
    expect(screen.getByText('P-11')).toBeDefined();
    await user.click(screen.getByRole('button', { name: 'Jobs' }));
    expect(screen.getByText('late by 3 h 50 min')).toBeDefined();
    expect(screen.getByRole('button', { name: 'Jobs' }).getAttribute('aria-pressed')).toBe('true');
  });
});
