const words = new Intl.DateTimeFormat("en-GB", {
  ...{ weekday: "short", day: "numeric", month: "short", timeZone: "UTC" },
})

/** A day of a log: "Fri 20 Nov". */
export function weekdayAndDay(day: string): string {
  return words.format(new Date(`${day}T00:00:00Z`)).replace(",", "")
}
