import { expect, test } from "vitest"
import { labelSides } from "../../../app/(clinic)/patients/[publicId]/label-sides"

const at = (left: number, top = 50) => ({ left, top })

test("a label stands after its mark where there is room", () => {
  expect(labelSides([at(10), at(40), at(92)], 20)).toEqual(["after", "after", "after"])
})

test("of two marks close by at one height the first has its label before it, and no label meets another", () => {
  expect(labelSides([at(85), at(91)], 20)).toEqual(["before", "after"])
  expect(labelSides([at(85), at(91), at(95)], 20)).toEqual(["before", null, null])
  expect(labelSides([at(70), at(88), at(95)], 20)).toEqual(["after", null, null])
})

test("marks close by at different heights keep their labels", () => {
  expect(labelSides([at(85, 10), at(91, 90)], 20)).toEqual(["after", "after"])
})

test("a mark at the right end has its label before it", () => {
  expect(labelSides([at(98)], 20)).toEqual(["before"])
})
