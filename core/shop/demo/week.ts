/** Local time on a day of the demo week: 0 is Monday, negative is the week before. */
export type Moment = (day: number, time: string) => string;

export const [MON, TUE, WED, THU, FRI, NEXT_MON] = [0, 1, 2, 3, 4, 7] as const;
