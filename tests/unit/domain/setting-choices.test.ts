import { expect, test } from "vitest"
import { chosenOf, settingTopics, topicOf } from "../../../lib/domain/setting-choices"
import { settingGroups } from "../../../lib/domain/setting-topic"
import { settingKeys, settingText } from "../../../lib/domain/setting-values"
import { proposeSettings, settingTexts } from "../../../lib/domain/setting-proposal"
import { defaultSettings, Settings } from "../../../lib/domain/settings"

const choices = settingTopics.flatMap((topic) => topic.choices.map((choice) => ({ topic, choice })))

test("every setting is asked about once, and in one topic", () => {
  const asked = settingTopics.flatMap((topic) => topic.keys)

  expect([...asked].sort()).toEqual([...settingKeys].sort())
})

test("every group has a topic, and every topic a group", () => {
  const groups = settingGroups.map((group) => group.id)

  expect(new Set(settingTopics.map((topic) => topic.group))).toEqual(new Set(groups))
  expect(new Set(settingTopics.map((topic) => topic.id)).size).toBe(settingTopics.length)
})

test.each(settingTopics)(
  "$id can be answered: by a choice, by numbers or by texts for all its keys",
  (topic) => {
    const byField = topic.fields.map((field) => field.key)

    expect(topic.question).toMatch(/\?$/)
    const byText = (topic.texts ?? []).map((text) => text.key)

    expect(topic.choices.length + topic.fields.length + byText.length).toBeGreaterThan(0)
    if (byText.length > 0) expect([...byText].sort()).toEqual([...topic.keys].sort())
    if (topic.fields.length > 0) expect([...byField].sort()).toEqual([...topic.keys].sort())
    for (const choice of topic.choices)
      expect(Object.keys(choice.sets).sort()).toEqual([...topic.keys].sort())
  },
)

test.each(settingTopics.filter((topic) => topic.choices.length > 0))(
  "the default of $id is one of its named choices",
  (topic) => {
    expect(chosenOf(topic, defaultSettings)).not.toBeNull()
  },
)

test.each(choices)("$topic.id $choice.id parses, and can be proposed", ({ topic, choice }) => {
  const settings = Settings.parse({ ...defaultSettings, ...choice.sets })

  const proposal = proposeSettings(defaultSettings, settingTexts(settings, topic.keys))

  expect(proposal.problems).toEqual([])
  expect(proposal.settings).toEqual(settings)
  expect(chosenOf(topic, proposal.settings)?.id).toBe(choice.id)
})

test.each(choices)("$topic.id $choice.id names its source, or says there is none", ({ choice }) => {
  expect(choice.source).toMatch(
    /doi:10\.\d{4,}\/|CMS\d+|NICE NG\d+|MIPS \d+|J Clin Hypertens|CFR 164\.|Centers for Medicare|no source/,
  )
})

test.each(settingTopics.filter((topic) => topic.choices.length === 0))(
  "$id, which has no named choice, says where its default comes from",
  (topic) => {
    expect(topic.note).toMatch(/no source|from memory/)
  },
)

test.each(settingTopics.flatMap((topic) => topic.fields))(
  "the default of $key is within its range",
  (field) => {
    const value = defaultSettings[field.key]

    if (value === null) expect(field.isOptional).toBe(true)
    else expect(Number(value)).toSatisfy((one: number) => one >= field.least && one <= field.most)
    expect(settingText(value)).toMatch(/^(\d+(\.\d+)?)?$/)
  },
)

test("a setting nobody asks about is a mistake", () => {
  // @ts-expect-error there is no such setting
  expect(() => topicOf("bp.colour")).toThrow(RangeError)
})
