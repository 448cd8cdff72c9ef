-- Tells whether a reported ACR or PCR is so high that it counts as confirmed albuminuria without a repeat:
-- ACR 620 mg/g or 70 mg/mmol and above, PCR 1000 mg/g or 100 mg/mmol and above; a number marked '<' lies just below itself.
-- shape: reported number, comparator '<', '>', '<=', '>=' or null, test 'uacr' or 'upcr', unit as reported -> BOOLEAN
-- absent: null when the number is null or the unit is none of these
-- throws: nothing
-- source: NICE guideline NG203, Chronic kidney disease: assessment and management, 2021, section 1.1 (ACR 70 mg/mmol);
--   the PCR pair is its usual equivalent in that guideline
-- example: albuminuria_needs_no_repeat(70, null, 'uacr', 'mg/mmol') = true
create or replace macro albuminuria_needs_no_repeat(reported, comparator, test, unit) as
  case
    when test = 'uacr' and unit in ('mg/g', 'ug/mg') then reported > 620 or (reported = 620 and comparator is distinct from '<')
    when test = 'uacr' and unit in ('mg/mmol', 'g/mol') then reported > 70 or (reported = 70 and comparator is distinct from '<')
    when test = 'upcr' and unit in ('mg/g', 'ug/mg') then reported > 1000 or (reported = 1000 and comparator is distinct from '<')
    when test = 'upcr' and unit in ('g/g', 'mg/mg') then reported > 1 or (reported = 1 and comparator is distinct from '<')
    when test = 'upcr' and unit in ('mg/mmol', 'g/mol') then reported > 100 or (reported = 100 and comparator is distinct from '<')
  end
