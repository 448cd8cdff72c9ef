import type { Theme } from "./types"

/** The themes in the order in which screens show them. */
export const themes: readonly { readonly id: Theme; readonly title: string }[] = [
  { id: "pressure", title: "Pressure" },
  { id: "protection", title: "Protein and protection" },
  { id: "diet", title: "Diet" },
  { id: "monitoring", title: "Monitoring" },
  { id: "safety", title: "Safety" },
]
