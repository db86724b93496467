// Plays a film: each piece says in "s" from which moments to which it is seen, and in "l" when it comes down.
(function () {
  "use strict";
  var film = JSON.parse(document.getElementById("film").textContent);
  var box = document.querySelector(".film");
  var canvas = box.querySelector("canvas");
  var said = box.querySelector(".said");
  var options = box.querySelector(".options");
  var play = box.querySelector(".play");
  var on = box.querySelector(".on");
  var part = box.querySelector(".part");
  var speed = box.querySelector(".speed");
  var still = window.matchMedia("(prefers-reduced-motion: reduce)");
  var behind = document.createElement("canvas");
  var painted = -1;
  var at = 0, playing = false, held = null, answer = -1, waited = 0, told = null, passed = {}, showing = 0;
  var changes = [];
  film.items.forEach(function (item) {
    item.s.forEach(function (moment) { changes.push(moment); });
    if (item.l) { changes.push(item.l[1] - 1); }
  });
  changes.sort(function (a, b) { return a - b; });

  // Painting.

  function seen(item, moment) {
    for (var i = 0; i < item.s.length; i += 2) {
      if (item.s[i] < moment && moment <= item.s[i + 1]) { return true; }
    }
    return false;
  }
  function moves(item, moment) { return item.l && item.l[0] < moment && moment < item.l[1]; }
  function scale() { return canvas.width / (film.box[2] - film.box[0]); }
  function draw(pen, item, up) {
    var k = scale(), p = item.p, px = window.devicePixelRatio || 1;
    function x(i) { return (p[i] - film.box[0]) * k; }
    function y(i) { return (film.box[3] - p[i + 1] - up) * k; }
    if (item.t) {
      pen.font = "600 " + 15 * px + "px sans-serif";
      pen.textAlign = "center";
      var wide = pen.measureText(item.t).width;
      pen.fillStyle = "#ffffff";
      pen.fillRect(x(0) - wide / 2 - 3 * px, y(0) - 26 * px, wide + 6 * px, 20 * px);
      pen.fillStyle = item.e;
      pen.fillText(item.t, x(0), y(0) - 11 * px);
      return;
    }
    pen.beginPath();
    pen.moveTo(x(0), y(0));
    for (var i = 2; i < p.length; i += 2) { pen.lineTo(x(i), y(i)); }
    if (item.f !== undefined) { pen.closePath(); }
    if (item.f) { pen.fillStyle = item.f; pen.fill(); }
    if (item.e) {
      pen.strokeStyle = item.e;
      pen.lineWidth = item.w * px * Math.min(1, canvas.width / px / 800 + 0.3);
      pen.setLineDash((item.d || []).map(function (length) { return length * px; }));
      pen.stroke();
    }
  }
  function anything(from, to) {
    return changes.some(function (moment) { return Math.min(from, to) <= moment && moment < Math.max(from, to); });
  }
  function paint() {
    var pen;
    if (painted < 0 || anything(painted, at)) {
      behind.width = canvas.width;
      behind.height = canvas.height;
      pen = behind.getContext("2d");
      film.items.forEach(function (item) { if (seen(item, at) && !moves(item, at)) { draw(pen, item, 0); } });
    }
    painted = at;
    pen = canvas.getContext("2d");
    pen.clearRect(0, 0, canvas.width, canvas.height);
    pen.drawImage(behind, 0, 0);
    film.items.forEach(function (item) {
      if (moves(item, at)) {
        var left = 1 - (at - item.l[0]) / (item.l[1] - item.l[0]);
        draw(pen, item, film.lift * left * left);
      }
    });
    box.setAttribute("data-moment", String(at));
    box.setAttribute("data-standing", String(film.stands.filter(function (moment) { return moment <= at; }).length));
  }
  function resize() {
    var px = window.devicePixelRatio || 1;
    var wide = canvas.clientWidth, tall = wide * (film.box[3] - film.box[1]) / (film.box[2] - film.box[0]);
    canvas.width = Math.round(wide * px);
    canvas.height = Math.round(tall * px);
    canvas.style.height = tall + "px";
    painted = -1;
    paint();
  }

  // Saying and asking.

  function ranges() { return part.value === "" ? [[0, film.length]] : film.parts[Number(part.value)]; }
  function ended() { var all = ranges(); return !held && at >= all[all.length - 1][1]; }
  function line(parent, strong, text) {
    var p = parent.appendChild(document.createElement("p"));
    if (strong) { p.appendChild(document.createElement("strong")).textContent = strong; }
    p.appendChild(document.createTextNode((strong && text ? ": " : "") + text));
  }
  function asks() { return held && held.options && answer < 0; }
  function show() {
    var focused = box.contains(document.activeElement);
    said.replaceChildren();
    options.replaceChildren();
    if (held && held.options) {
      line(said, held.text, "");
      held.options.forEach(function (option, number) {
        if (answer < 0) {
          var button = options.appendChild(document.createElement("button"));
          button.type = "button";
          button.textContent = option.text;
          button.addEventListener("click", function () { answer = number; show(); on.focus(); });
        } else if (option.right || number === answer) {
          line(said, said.getAttribute(option.right ? "data-right" : "data-wrong"), option.text + ". " + option.why);
        }
      });
    } else if (ended()) {
      line(said, "", said.getAttribute(part.value === "" ? "data-end" : "data-part"));
    } else if (told) {
      line(said, told.name, told.text);
    } else {
      line(said, "", said.getAttribute("data-begin"));
    }
    play.hidden = still.matches;
    play.textContent = play.getAttribute(playing ? "data-pause" : ended() ? "data-again" : "data-play");
    on.textContent = on.getAttribute(asks() ? "data-skip" : held ? "data-on" : "data-step");
    on.disabled = ended();
    if (focused && asks()) { options.firstChild.focus(); }
    box.setAttribute("data-playing", String(playing));
  }

  // Going through it.

  function wanted(moment) { return ranges().some(function (r) { return r[0] <= moment && moment < r[1]; }); }
  function hold() {
    for (var i = 0; i < film.cues.length; i += 1) {
      if (!passed[i] && film.cues[i].at === at && wanted(at)) {
        passed[i] = true;
        held = film.cues[i];
        answer = -1;
        waited = 0;
        if (!held.options) { told = held; }
        return;
      }
    }
  }
  function release() { held = null; answer = -1; waited = 0; hold(); show(); }
  function go(moment) {
    at = Math.max(0, Math.min(film.length, moment));
    held = told = null;
    passed = {};
    film.cues.forEach(function (cue, i) {
      if (cue.at < at) { passed[i] = true; if (!cue.options) { told = cue; } }
    });
    hold();
    show();
    paint();
  }
  function runTo(moment) {
    var i, cue;
    for (i = 0; i < film.cues.length; i += 1) {
      cue = film.cues[i];
      if (!passed[i] && wanted(cue.at) && at <= cue.at && cue.at <= moment) {
        at = cue.at;
        hold();
        show();
        return;
      }
    }
    at = moment;
  }
  function along(ms) {
    var now = at;
    ranges().forEach(function (r) {
      if (now < r[1] && ms > 0) {
        now = Math.max(now, r[0]);
        var some = Math.min(ms, r[1] - now);
        now += some;
        ms -= some;
      }
    });
    return Math.round(now);
  }
  function frame(ms) {
    if (held) {
      waited += ms;
      if (!held.options && waited >= held.hold) { release(); }
    } else if (ended()) {
      playing = false;
      show();
    } else {
      runTo(along(ms * Number(speed.value)));
      paint();
    }
  }
  function start() {
    var last = 0, mine = showing += 1;
    window.requestAnimationFrame(function next(time) {
      if (!playing || mine !== showing) { return; }
      frame(last ? Math.min(100, time - last) : 0);
      last = time;
      window.requestAnimationFrame(next);
    });
  }
  play.addEventListener("click", function () {
    if (ended()) { go(ranges()[0][0]); }
    playing = !playing;
    show();
    start();
  });
  on.addEventListener("click", function () {
    if (held) { release(); return; }
    playing = false;
    var all = ranges(), next = film.steps.filter(function (moment) {
      return moment > at && all.some(function (r) { return r[0] < moment && moment <= r[1]; });
    });
    runTo(next.length ? next[0] : all[all.length - 1][1]);
    show();
    paint();
  });
  box.querySelector(".back").addEventListener("click", function () {
    playing = false;
    var all = ranges(), before = film.steps.filter(function (moment) {
      return moment < at && all.some(function (r) { return r[0] <= moment && moment <= r[1]; });
    });
    go(before.length ? before[before.length - 1] : all[0][0]);
  });
  part.addEventListener("change", function () { go(ranges()[0][0]); });
  window.addEventListener("resize", resize);
  box.classList.add("ready");
  go(0);
  resize();
})();
