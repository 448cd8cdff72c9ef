-- Gives the lower end of the mean fall in systolic pressure that trials found for a fall in sodium: all trials, a few days included.
-- An average of groups, for conversation; it says nothing of one person.
-- shape: sodium_fall_mg mg per day (0 or more) -> DOUBLE mmHg
-- absent: null when the fall is null or negative
-- throws: nothing
-- source: Huang 2020, Effect of dose and duration of reduction in dietary sodium on blood pressure levels: systematic review and
--   meta-analysis of randomised trials, BMJ 368:m315, abstract (1.10 mmHg for each 50 mmol in 24 hours), doi:10.1136/bmj.m315
--   [read: abstract]
-- example: systolic_fall_least(1149.5) = 1.10
create or replace macro systolic_fall_least(sodium_fall_mg) as
  case when sodium_fall_mg >= 0 then cast(sodium_fall_mg as double) / 22.99 * 1.10 / 50 end;
