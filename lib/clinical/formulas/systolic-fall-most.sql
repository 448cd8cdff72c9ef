-- Gives the upper end of the mean fall in systolic pressure that trials found for a fall in sodium: trials in kidney disease.
-- An average of groups, for conversation; it says nothing of one person.
-- shape: sodium_fall_mg mg per day (0 or more) -> DOUBLE mmHg
-- absent: null when the fall is null or negative
-- throws: nothing
-- source: McMahon 2021, Altered dietary salt intake for people with chronic kidney disease, Cochrane Database Syst Rev CD010070,
--   abstract (6.91 mmHg with 73.51 mmol per day less), doi:10.1002/14651858.CD010070.pub3
--   [read: abstract; the first author from memory]
-- example: systolic_fall_most(1690) = 6.91
create or replace macro systolic_fall_most(sodium_fall_mg) as
  case when sodium_fall_mg >= 0 then cast(sodium_fall_mg as double) / 22.99 * 6.91 / 73.51 end;
