/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sends photos as soon as they are chosen, one after the other, and shows how far they are. What was broken off is sent again, unless it
   turns out to have arrived. Without this script the same forms do the same when their buttons are pressed. */
'use strict';
(() => {
  const words = document.body.dataset, now = document.getElementById('now'), list = document.getElementById('list');
  const [said, bar] = now.children;
  const most = 256 * 1024 * 1024, waits = [1, 2, 3, 5, 8];   // seconds
  const waiting = [];
  let nth = 0, total = 0, working = false;

  document.documentElement.classList.add('js');

  const pause = seconds => new Promise(done => setTimeout(done, seconds * 1000));
  const key = () => Array.from(crypto.getRandomValues(new Uint8Array(16)), byte => byte.toString(16).padStart(2, '0')).join('');

  function say(text, share) {
    now.hidden = !text;
    document.body.classList.toggle('busy', working);
    said.textContent = text || '';
    bar.hidden = share === undefined;
    if (share !== undefined) bar.value = share;
  }

  const sending = () => total > 1 ? words.several.replace('%1', nth).replace('%2', total) : words.sending;

  /* Its answer; null: there was none. */
  function post(form) {
    return new Promise(done => {
      const request = new XMLHttpRequest();
      request.open('POST', './?part');
      request.upload.onprogress = told => {
        if (told.lengthComputable) say(told.loaded < told.total ? sending() : words.looking, told.loaded < told.total ? told.loaded / told.total : undefined);
      };
      request.upload.onload = () => say(words.looking);
      request.onload = () => done(request);
      request.onerror = request.onabort = () => done(null);
      request.send(form);
    });
  }

  /* What the computer has; null: it does not answer. */
  async function look() {
    try {
      const told = await fetch('list');
      return told.ok ? await told.text() : null;
    } catch {
      return null;
    }
  }

  const show = part => { list.innerHTML = part; };
  const has = mark => !!list.querySelector('[data-key="' + mark + '"]');

  async function send(file, again) {
    const mark = key(), form = new FormData();
    form.append('key', mark);
    if (again) form.append('again', again);
    form.append('photo', file, 'photo');
    for (let tries = 0; ; tries++) {
      say(sending(), 0);
      const told = await post(form);
      if (told) {
        if (told.status === 200) show(told.responseText);
        else location.reload();
        return;
      }
      say(words.lost);
      await pause(waits[Math.min(tries, waits.length - 1)]);
      const part = await look();
      if (part !== null) {
        show(part);
        if (has(mark)) return;
      }
    }
  }

  async function work() {
    if (working) return;
    working = true;
    while (waiting.length) {
      const [file, again] = waiting.shift();
      nth++;
      if (file.size > most) { list.innerHTML = ''; const p = document.createElement('p'); p.className = 'problem'; p.textContent = words.large; list.append(p); continue; }
      await send(file, again);
    }
    working = false;
    nth = total = 0;
    say('');
  }

  document.addEventListener('change', event => {
    const input = event.target;
    if (input.type !== 'file' || !input.files.length) return;
    const again = input.form.elements.again;
    for (const file of input.files) waiting.push([file, again && again.value]);
    total += input.files.length;
    input.value = '';
    work();
  });

  window.addEventListener('beforeunload', event => { if (working) event.preventDefault(); });
})();
