/**
 * Whether an order ended by its supply alone, as no stop is recorded up to that day: a condition over `o` of `orders` and its span `c`,
 * a row of `class_orders` or `order_spans` that has ended.
 */
export const ranOut = "(o.stopped_on is null or o.stopped_on > c.ends_on)"
