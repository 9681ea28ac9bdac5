/** Where the clock stands in these tests: a Wednesday before the demo week, which begins the Monday after. */
export const AT = '2026-11-25T08:00';
