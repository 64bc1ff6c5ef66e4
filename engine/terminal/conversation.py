"""The dialogue of `dryjoint ask`: the only state is the case and those before it."""

from collections.abc import Callable
from pathlib import Path

from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.steps import AdvisedCheck, Step, by_minutes
from engine.diagnosis.case import CANNOT_CHECK, Case, Kit, add_finding, repaired, withdraw
from engine.diagnosis.entry import read_answer
from engine.diagnosis.model import CheckText, SetModel
from engine.diagnosis.opening import case_file
from engine.diagnosis.repairing.again import repeats_first
from engine.diagnosis.settling import settled
from engine.errors import UnknownReading, suggest
from engine.terminal.choosing import choose, is_yes, picked, read_line
from engine.terminal.costs import show_costs
from engine.terminal.help import HELP
from engine.terminal.mending import read_repair, repaired_lines
from engine.terminal.report import (
    causes_table,
    check_lines,
    checks_table,
    filled,
    finding_lines,
    foreseen_lines,
    kinds_table,
    reason_lines,
    verdict_lines,
)
from engine.terminal.telling import told_symptoms
from engine.terminal.visits import OpenedFile

Opener = Callable[[str], SetModel | None]  # a family by its id


class Conversation:
    """One case at one terminal; `opened` is the file it came from, if any."""

    def __init__(
        self,
        model: SetModel,
        case: Case,
        opened: OpenedFile | None = None,
        opener: Opener = lambda family: None,
    ) -> None:
        self.model, self.opener = model, opener
        self.case = case
        self.opened = opened
        self.earlier: list[Case] = []
        self.quick = False
        self.taken: str | None = None

    @property
    def told(self) -> Case:
        """The case with what setting up told of the set."""
        return self.opened.told(self.model, self.case) if self.opened else self.case

    def begin(self) -> None:
        """Ask for the kit and the symptoms, then go on with checks."""
        print(self.model.family.title, "", sep="\n")
        if self._ask_kit() and self._ask_symptoms():
            self.go_on()

    def go_on(self) -> None:
        """Propose checks and take answers until there is nothing left to ask or `stop`."""
        while True:
            answer = step(self.model, self.told)
            if answer.kinds:
                print("", kinds_table(self.model, answer, 5), sep="\n")
            print("", *verdict_lines(self.model, answer), sep="\n")
            print("", causes_table(answer, 5), sep="\n")
            check = self._next(answer)
            lines = check_lines(self.model, check) if check else (checks_table((), 0),)
            print("", *lines, sep="\n")
            if not self._answer(answer, check):
                return

    def _ask_kit(self) -> bool:
        """Ask what is at hand; False to stop."""
        names = list(self.model.instruments)
        for number, name in enumerate(names, start=1):
            print(f"{number:3}  {self.model.instruments[name].title}")
        kit = choose("Which of these are at hand? Numbers, 'all', or nothing: ", names, True)
        lid = None if kit is None else is_yes("May the case be opened? yes or no: ")
        if kit is None or lid is None:
            return False
        self.case = Case(self.case.family, Kit(frozenset(kit), "off" if lid else "on"))
        return True

    def _ask_symptoms(self) -> bool:
        """Ask what was noticed; False to stop."""
        names = self.model.symptoms
        for number, name in enumerate(names, start=1):
            print(f"{number:3}  {self.model.checks[name].title}")
        told = told_symptoms(self.model)
        return told is not None and all(
            self._ask_symptom(self.model.checks[name], answer) for name, answer in told
        )

    def _ask_symptom(self, check: CheckText, told: str) -> bool:
        """Take a symptom as told or as true, or ask how it shows; an empty line leaves it out."""
        is_complaint = "yes" in check.outcomes and check.channel.rows[0][0] < 0.5
        text = told or ("yes" if is_complaint else "")
        while not text or not self._take_answer(check, text):
            print(filled(check.asks), "  " + " / ".join(check.outcomes), sep="\n")
            text = read_line("> ")
            if text in ("", "stop"):
                return not text
        return True

    def _ordered(self, answer: Step) -> tuple[AdvisedCheck, ...]:
        return by_minutes(answer) if self.quick else repeats_first(self.told, answer)

    def _next(self, answer: Step) -> CheckText | None:
        """Return the check to propose: the one taken by hand, or the best."""
        names = [check.id for check in self._ordered(answer)]
        name = self.taken if self.taken in names else next(iter(names), None)
        return self.model.checks[name] if name else None

    def _answer(self, answer: Step, check: CheckText | None) -> bool:
        """Read lines until one changes the case or proposal; False to stop."""
        while True:
            text = read_line("> ")
            word, _, rest = text.partition(" ")
            if word == "stop":
                return False
            if word in COMMANDS:
                if COMMANDS[word](self, answer, check, rest):
                    return True
            elif check is not None and text:
                if self._take_answer(check, text):
                    return True
            else:
                print(HELP)

    def _take_answer(self, check: CheckText, text: str) -> bool:
        try:
            finding = read_answer(self.model, check.id, text)
        except UnknownReading as error:
            print(error, "Type help to see what else can be typed.", sep="\n")
            return False
        for line in finding_lines(self.model, finding):
            print(line)
        self._keep(add_finding(self.case, finding))
        return True

    def _keep(self, case: Case) -> None:
        self.earlier.append(self.case)
        self.case, self.taken = case, None

    def _help(self, answer: Step, check: CheckText | None, rest: str) -> bool:
        print(HELP)
        return False

    def _cannot(self, answer: Step, check: CheckText | None, rest: str) -> bool:
        return check is not None and self._take_answer(check, CANNOT_CHECK)

    def _foresee(self, answer: Step, check: CheckText | None, rest: str) -> bool:
        for line in foreseen_lines(self.model, self.told, check.id) if check else ():
            print(line)
        return False

    def _causes(self, answer: Step, check: CheckText | None, rest: str) -> bool:
        print(causes_table(answer, 12))
        return False

    def _reasons(self, answer: Step, check: CheckText | None, rest: str) -> bool:
        for cause in picked(answer.causes, rest)[:1]:
            print(f"  {cause.title}", *reason_lines(self.model, self.told, cause.id), sep="\n")
        return False

    def _others(self, answer: Step, check: CheckText | None, rest: str) -> bool:
        print(checks_table(self._ordered(answer), 15))
        return False

    def _take(self, answer: Step, check: CheckText | None, rest: str) -> bool:
        for check_row in picked(self._ordered(answer), rest)[:1]:
            self.taken = check_row.id
            return True
        print("Take which? A number of the list that 'others' shows.")
        return False

    def _quick(self, answer: Step, check: CheckText | None, rest: str) -> bool:
        self.quick = not self.quick
        return True

    def _repaired(self, answer: Step, check: CheckText | None, rest: str) -> bool:
        repair = read_repair(answer, rest)
        if repair is not None:
            self._keep(repaired(self.case, repair))
            print(*repaired_lines(self.model, self.told, repair), sep="\n")
        return repair is not None

    def _found(self, answer: Step, check: CheckText | None, rest: str) -> bool:
        for number, found in enumerate(self.case.all_findings(), start=1):
            print(f"{number:3}  {self.model.checks[found.check].title}: {found.said}")
        return False

    def _drop(self, answer: Step, check: CheckText | None, rest: str) -> bool:
        for finding in picked(self.case.all_findings(), rest)[:1]:
            self._keep(withdraw(self.case, finding.check))
            return True
        print("Drop which? A number of the list that 'found' shows.")
        return False

    def _settle(self, answer: Step, check: CheckText | None, rest: str) -> bool:
        known = [kind for kind, _ in answer.kinds]
        model = self.opener(rest) if rest in known else None
        if model is None:
            print(f"Settle on which kind? {suggest(rest, known)}" if known else "It is known.")
            return False
        self.model, self.case = model, settled(model, self.case)
        self.earlier = []
        return True

    def _back(self, answer: Step, check: CheckText | None, rest: str) -> bool:
        if self.earlier:
            self.case = self.earlier.pop()
        return True

    def _save(self, answer: Step, check: CheckText | None, rest: str) -> bool:
        if not rest:
            print("Save where? Give a file name, such as: save set-7.yaml")
            return False
        text = self.opened.text(self.model, self.case) if self.opened else case_file(self.case)
        try:
            Path(rest).write_text(text, encoding="utf-8")
            print(f"Saved in {rest}. Go on later with: dryjoint ask {rest}")
        except OSError as error:
            print(f"{rest}: {error.strerror}. Nothing is lost; try another name.")
        return False


COMMANDS = {
    "help": Conversation._help,
    "cannot": Conversation._cannot,
    "foresee": Conversation._foresee,
    "causes": Conversation._causes,
    "reasons": Conversation._reasons,
    "others": Conversation._others,
    "take": Conversation._take,
    "quick": Conversation._quick,
    "costs": lambda talk, answer, _check, _rest: show_costs(talk.model, talk.told, answer),
    "repaired": Conversation._repaired,
    "found": Conversation._found,
    "drop": Conversation._drop,
    "settle": Conversation._settle,
    "back": Conversation._back,
    "save": Conversation._save,
}
