"""What can be typed while `dryjoint ask` runs."""

HELP = """\
  an answer      yes, no, an outcome, or a number with its unit, such as 3.5 W
  cannot         this check cannot be made
  foresee        what each answer would do to the causes
  causes         the likeliest causes        reasons N   why cause number N of that list
  others         other checks                take N      do check number N of that list
  quick          order checks by bits per minute, or back by bits
  costs          repair now or measure on, in minutes
  repaired N HOW cause number N was put right: replaced, adjusted, cleaned or put-back
  found          what was found so far       drop N      take finding number N back
  settle ID      the set is of this kind (where that was not sure)
  back           undo the last step
  save FILE      write the case, to go on later or to rank
  stop"""
