import { classWords } from "../../../_ui/class-words"
import { count, day, pressure } from "../../../../lib/speech/format"
import { PressureMark } from "../../../_ui/pressure-mark"
import type { Column } from "./column"

export const bloodPressure: Column = {
  head: "Pressure",
  unit: "mmHg",
  isNumber: true,
  absent: "not measured",
  cell: (one) =>
    one.systolic === null || one.diastolic === null ? null : pressure(one.systolic, one.diastolic),
}

export const taken: Column = {
  head: "Taken",
  absent: " ",
  cell: (one) =>
    one.bp_source === null || one.bp_on === null ? null : (
      <>
        <PressureMark source={one.bp_source} />, {day(one.bp_on)}
      </>
    ),
}

export const target: Column = {
  head: "Target",
  unit: "below, mmHg",
  label: "target below",
  isNumber: true,
  absent: " ",
  cell: (one) =>
    one.systolic_limit === null || one.diastolic_limit === null
      ? null
      : pressure(one.systolic_limit, one.diastolic_limit),
}

export const countedDay: Column = {
  head: "Day",
  label: "on",
  isNumber: true,
  absent: " ",
  cell: (one) => (one.counted_day === null ? null : day(one.counted_day)),
}

export const lowestOfDay: Column = {
  head: "Lowest of the day",
  unit: "mmHg",
  label: "lowest",
  isNumber: true,
  absent: "not measured",
  cell: (one) =>
    one.counted_lowest_systolic === null || one.counted_lowest_diastolic === null
      ? null
      : pressure(one.counted_lowest_systolic, one.counted_lowest_diastolic),
}

export const classes: Column = {
  head: "Classes",
  label: "classes",
  isLong: true,
  absent: "no class",
  cell: (one) =>
    one.classes.length === 0
      ? null
      : `${count(one.classes.length)}: ${one.classes.map(classWords).join(", ")}`,
}

export const newestClass: Column = {
  head: "Newest class since",
  label: "newest class since",
  isNumber: true,
  absent: " ",
  cell: (one) => (one.newest_class_on === null ? null : day(one.newest_class_on)),
}

export const rasBlocker: Column = {
  head: "ACE inhibitor or ARB",
  label: "ACE inhibitor or ARB:",
  isLong: true,
  cell: (one) => {
    if (one.ras_history === "on") return "on one"
    if (one.ras_history === "never") return "never tried"
    const drug = one.ras_stopped_drug === null ? "" : `${one.ras_stopped_drug} `
    const on = one.ras_stopped_on === null ? "" : ` ${day(one.ras_stopped_on)}`
    return `${drug}stopped${on}${one.ras_stop_reason === null ? "" : `: ${one.ras_stop_reason}`}`
  },
}

export const kinds: Column = {
  head: "Kinds",
  label: "kinds",
  isLong: true,
  absent: "no kind",
  cell: (one) => (one.kinds.length === 0 ? null : one.kinds.map(classWords).join(", ")),
}

export const homeAverage: Column = {
  head: "Home average to",
  label: "home average to",
  isNumber: true,
  absent: "never",
  cell: (one) => (one.home_average_on === null ? null : day(one.home_average_on)),
}

export const quarterAgo: Column = {
  head: "Three months before",
  unit: "mmHg",
  label: "three months before",
  isNumber: true,
  absent: "not measured",
  cell: (one) =>
    one.quarter_ago_systolic === null || one.quarter_ago_diastolic === null
      ? null
      : pressure(one.quarter_ago_systolic, one.quarter_ago_diastolic),
}

export const planned: Column = {
  head: "Started or raised",
  label: "started or raised",
  isNumber: true,
  absent: "nothing",
  cell: (one) => (one.plan_on === null ? null : day(one.plan_on)),
}

export const lastCounted: Column = {
  head: "Last counted reading",
  label: "last counted reading",
  isNumber: true,
  absent: "none in 12 months",
  cell: (one) => (one.counted_day === null ? null : day(one.counted_day)),
}

export const daysToCheck: Column = {
  head: "Days to both results",
  label: "days to both results",
  isNumber: true,
  absent: "not both in time",
  cell: (one) => (one.ras_start_checked_days === null ? null : count(one.ras_start_checked_days)),
}
