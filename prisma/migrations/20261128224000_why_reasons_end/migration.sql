-- Why a reason is gone: a fact took it off, the clinic switched it off, or the person is not followed here any more. Rows from
-- before have none and count as none of them.
ALTER TABLE "outreach_case_reasons" ADD COLUMN "ended_why" TEXT;

ALTER TABLE "outreach_case_reasons" ADD CONSTRAINT "outreach_case_reasons_ended_why" CHECK (
    "ended_why" IN ('by the facts', 'switched off', 'not followed') AND ("ended_why" IS NULL OR "ended_on" IS NOT NULL));
