import type { FileKind } from "../file-kind"

export const staff: FileKind = {
  kind: "staff",
  required: ["staff_id", "name", "role"],
  optional: ["site"],
  read(cells) {
    const staffId = cells.need.id("staff_id")
    if (cells.identify({ id: staffId })) return null
    return [
      staffId,
      cells.need.text("name"),
      cells.need.word("role", ["nephrologist", "dietitian", "coordinator", "nurse", "other"]),
      cells.text("site"),
    ]
  },
}
