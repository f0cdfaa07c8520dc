/** Of more people and crews, only so many are told apart in charts and have a sheet. */
export const mostApart = { technicians: 60, crews: 40, sheets: 60 } as const;
