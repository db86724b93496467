"""A paper as one HTML file that needs nothing else: it prints, reads aloud, and makes no request."""

from __future__ import annotations

from collections.abc import Mapping

from jinja2 import Environment
from markupsafe import Markup

from trainer.picture import Palette, Picture, to_svg
from trainer.report.paper_text import PrintedPaper

_PAGE = """\
<!DOCTYPE html>
<html lang="en-AU">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{{ paper.title }}</title>
<style>
body { font: 12pt/1.45 'Source Sans Pro', 'Segoe UI', Arial, sans-serif; color: #111; max-width: 46rem;
  margin: 0 auto; padding: 1rem; }
h1 { font-size: 1.5rem; } h2 { font-size: 1.15rem; border-top: 2px solid #111; padding-top: .4rem; }
article { break-inside: avoid; margin: 1.1rem 0; }
article h3 { font-size: 1rem; margin: 0 0 .2rem; }
.how, .house { font-size: .9rem; } ol { margin: .3rem 0; padding-left: 2rem; }
ol.letters { list-style: upper-alpha; } .space { margin: .6rem 0; white-space: pre-wrap; }
.notes { font-size: .8rem; } dt { font-weight: 600; } dd { margin: 0 0 .3rem 1rem; }
figure { margin: 1rem 0; break-inside: avoid; } figure svg { width: 100%; height: auto; max-height: 24cm; }
@media print { body { max-width: none; padding: 0; } @page { margin: 18mm; } .plan { break-before: page; } }
</style>
</head>
<body>
<header>
<h1>{{ paper.title }}</h1>
{% if not paper.guide %}<p class="space">Code name ______________________   Date ______________</p>{% endif %}
{% for note in paper.notes %}<p class="notes">{{ note }}</p>
{% endfor %}</header>
<main>
{% for topic, questions in paper.questions | groupby_topic %}<section>
<h2>{{ topic | capitalize_first }}</h2>
{% for q in questions %}<article>
<h3>Question {{ q.number }}</h3>
{% if q.house %}<p class="house">{{ q.house }}</p>{% endif %}
<p>{{ q.text }} <span class="how">{{ q.how }}</span></p>
{% if q.picture %}<figure>{{ svg(q.picture) }}</figure>{% endif %}
{% if q.left %}<ol>{% for side in q.left %}<li>{{ side }}</li>{% endfor %}</ol>{% endif %}
{% if q.offered %}<ol class="letters">
{% for _letter, text in q.offered %}<li>{{ text }}</li>{% endfor %}</ol>{% endif %}
{% if paper.guide %}<p><strong>Answer: {{ q.answer }}</strong></p>
<dl class="notes">{% for name, text in q.notes %}<dt>{{ name }}</dt><dd>{{ text }}</dd>{% endfor %}</dl>
{% elif q.space %}<p class="space">{{ q.space }}</p>{% endif %}
</article>
{% endfor %}</section>
{% endfor %}{% for name, picture in paper.plans %}<figure class="plan">
<figcaption><h2>{{ name }}</h2></figcaption>{{ svg(picture) }}</figure>
{% endfor %}</main>
</body>
</html>
"""


def paper_html(paper: PrintedPaper, palette: Palette) -> str:
    """Return a paper or its marking guide as an HTML page, drawings included."""
    environment = Environment(autoescape=True, trim_blocks=False, keep_trailing_newline=True)
    environment.filters["capitalize_first"] = lambda text: text[:1].upper() + text[1:]
    environment.filters["groupby_topic"] = _by_topic

    def svg(picture: Picture) -> Markup:
        return Markup(to_svg(picture, palette))

    return environment.from_string(_PAGE).render(paper=paper, svg=svg)


def _by_topic(questions: tuple[Mapping[str, object], ...]) -> list[tuple[str, list[object]]]:
    found: dict[str, list[object]] = {}
    for question in questions:
        found.setdefault(str(getattr(question, "topic")), []).append(question)  # noqa: B009
    return list(found.items())
