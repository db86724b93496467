"""Read aloud: what the screen says, in its order, by a voice that stands in for the system's own."""

from __future__ import annotations

from collections.abc import Callable

import board_quiz
from board_person import Person

from trainer.board.voice import NO_VOICE, Voice, sentences, texts_of
from trainer.quiz.question import OneOf


class Spoken:
    """A voice that keeps what it has said."""

    def __init__(self) -> None:
        self.said: list[str] = []
        self.waiting: list[str] = []
        self.begun: Callable[..., object] = lambda **_told: None
        self.after: Callable[[], object] = lambda: None

    def connect(self, topic: str, cb: Callable[..., object]) -> None:
        assert topic == "started-utterance"
        self.begun = cb

    def say(self, text: str) -> None:
        self.waiting.append(text)

    def stop(self) -> None:
        self.waiting.clear()

    def runAndWait(self) -> None:  # noqa: N802 - the library's own name
        while self.waiting:
            text = self.waiting.pop(0)
            self.begun(name=None)
            self.said.append(text)
            self.after()


def with_voice(person: Person, voice: Spoken) -> Voice:
    person.app.navigator.voice = Voice(lambda: voice, there=True)
    return person.app.navigator.voice


def heard(voice: Voice, spoken: Spoken) -> str:
    assert voice._reading is not None
    voice._reading.join(5)
    return " ".join(spoken.said)


def test_a_question_is_read_with_its_choices_and_then_why() -> None:
    person, spoken = Person(), Spoken()
    question = board_quiz.first(OneOf, worked=False)
    board_quiz.show(person, (question,))
    voice = with_voice(person, spoken)
    person.key("f12")
    said = heard(voice, spoken)
    assert isinstance(question.task, OneOf)
    places = [said.index(part.rstrip(".?")) for part in (question.text, *question.task.choices)]
    assert places == sorted(places)
    board_quiz.by_keyboard(person, question)
    spoken.said.clear()
    person.key("f12")
    assert question.why.split(". ")[0] in heard(voice, spoken)


def test_where_there_is_no_voice_it_says_so_in_plain_words() -> None:
    person = Person()
    person.wait_for_houses()
    person.app.navigator.voice = Voice(there=False)
    person.key("f12")
    said = " ".join(node.value for node in person.tree().walk())
    assert person.app.asking and NO_VOICE[0] in said


def test_a_voice_that_fails_takes_nothing_with_it() -> None:
    def broken() -> Spoken:
        raise OSError("no sound card")

    voice = Voice(broken, there=True)
    voice.read(["One. Two."])
    assert voice._reading is not None
    voice._reading.join(5)
    assert not voice.there and not voice.reading


def test_reading_stops_between_two_sentences() -> None:
    spoken = Spoken()
    voice = Voice(lambda: spoken, there=True)

    spoken.after = voice.stop
    voice.read(["One. Two. Three."])
    assert voice._reading is not None
    voice._reading.join(5)
    assert spoken.said == ["One.", "Two."], "what was begun when it was stopped is the last"


def test_signs_are_spoken_as_words() -> None:
    assert list(sentences(["Run × √2. Ask – then lift."])) == ["Run times the root of2.", "Ask , then lift."]


def test_nothing_is_read_of_drawings_and_buttons() -> None:
    person = Person()
    board_quiz.show(person, (board_quiz.first(OneOf, worked=True),))
    texts = texts_of([person.app.scene.roots["side"]])
    assert texts and "Answer" not in texts
