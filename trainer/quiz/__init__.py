"""Questions about the trade: written ones from a bank."""

from trainer.quiz.bank import ChooseOne, Number, Question, parse_bank
from trainer.quiz.bank_faults import bank_faults, question_faults
from trainer.quiz.unit import TOPICS, UNIT_ITEMS
