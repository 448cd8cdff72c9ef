-- Gives the category of a blood pressure; the higher of the two arms decides.
-- shape: systolic and diastolic mmHg, whole numbers (50 to 300 and 20 to 200)
--   -> 'normal', 'elevated', 'stage 1', 'stage 2' or 'severe'
-- absent: null when either is missing
-- throws: nothing
-- source: Whelton 2018, 2017 ACC/AHA guideline for high blood pressure in adults, Hypertension 71:e13-e115, Table 6,
--   doi:10.1161/HYP.0000000000000065; 'severe' from 180 or 120 as in its section on hypertensive crises
--   [from memory]
-- example: pressure_category(128, 84) = stage 1
create or replace macro pressure_category(systolic, diastolic) as
  case
    when systolic is null or diastolic is null then null
    when systolic >= 180 or diastolic >= 120 then 'severe'
    when systolic >= 140 or diastolic >= 90 then 'stage 2'
    when systolic >= 130 or diastolic >= 80 then 'stage 1'
    when systolic >= 120 then 'elevated'
    else 'normal'
  end;
