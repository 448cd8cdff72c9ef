/** Two ends of a 95% interval, in the unit of the estimate they belong to. */
export type Interval = { low: number; high: number }
