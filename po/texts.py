# SPDX-License-Identifier: GPL-3.0-or-later
"""Writes the texts of the data files, which the tools of gettext do not read, as a header they do read:
python3 po/texts.py > po/texts.h (po/list.sh does it)."""
import glob
import json
import os

here = os.path.dirname(os.path.abspath(__file__))
texts = []
for file in sorted(glob.glob(here + '/../data/styles/*.json')):
    with open(file, encoding='utf-8') as style:
        parts = json.load(style)
    texts += [parts[key] for key in ('name', 'for', 'caution') if parts.get(key)]
with open(here + '/../data/limits.json', encoding='utf-8') as limits:
    lines = json.load(limits).values()
    texts += [line['source'] for line in lines] + [line['name'] for line in lines if 'name' in line]
with open(here + '/../data/practice.json', encoding='utf-8') as practice:
    for one in json.load(practice)['classes']:
        texts += [one['name'], one['make'], one['source']] + [c['name'] for c in one['criteria']]

print('/* SPDX-License-Identifier: GPL-3.0-or-later */')
print('/* Made by po/texts.py from data/styles, data/limits.json and data/practice.json, for xgettext only. */')
print('/* clang-format off */')      # a formatted list would no longer be the list this makes
for text in dict.fromkeys(texts):
    print('N_(' + json.dumps(text, ensure_ascii=False) + ')')
