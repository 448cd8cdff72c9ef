-- Gives the diastolic limit for another kind of measurement that the guideline holds equal to an office limit pair.
-- shape: office_systolic and office_diastolic mmHg (the limit pair), source 'office', 'home' or 'ambulatory' (24-hour mean)
--   -> mmHg
-- absent: null when no equivalent of that pair is published
-- throws: nothing
-- source: Whelton 2018, 2017 ACC/AHA guideline for high blood pressure in adults, Hypertension 71:e13-e115, Table 11,
--   doi:10.1161/HYP.0000000000000065
--   [read: pocket guide of the guideline]
-- example: equivalent_diastolic(140, 90, 'ambulatory') = 80
create or replace macro equivalent_diastolic(office_systolic, office_diastolic, source) as
  case source
    when 'office' then office_diastolic
    when 'home' then
      case
        when office_systolic = 120 and office_diastolic = 80 then 80
        when office_systolic = 130 and office_diastolic = 80 then 80
        when office_systolic = 140 and office_diastolic = 90 then 85
        when office_systolic = 160 and office_diastolic = 100 then 90
      end
    when 'ambulatory' then
      case
        when office_systolic = 120 and office_diastolic = 80 then 75
        when office_systolic = 130 and office_diastolic = 80 then 75
        when office_systolic = 140 and office_diastolic = 90 then 80
        when office_systolic = 160 and office_diastolic = 100 then 90
      end
  end;
