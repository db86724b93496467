"""Files written by people, read with care: YAML to data that knows its lines, and every fault at once."""

from trainer.read.document import Document, Where
from trainer.read.fault import Fault, Faulty, refuse
from trainer.read.rewrite import rewrite_yaml
from trainer.read.suggest import did_you_mean
from trainer.read.table_text import cell_text, read_table, write_table
from trainer.read.validate import validate
from trainer.read.yaml_lines import yaml_entry, yaml_flow
from trainer.read.yaml_text import SIZE_LIMIT, read_yaml
