// The view that can be turned: plain WebGL, drawn only when something changed,
// and not before it is on the screen. Lengths in metres, angles in radians; the
// camera looks from far away, so that what is level on the load is level on the
// screen. It shows what the sheet says and reckons nothing of its own.
(function () {
  'use strict';
  const section = document.getElementById('view');
  const source = document.getElementById('view-data');
  if (!section || !source) return;
  const data = JSON.parse(source.textContent);
  const canvas = section.querySelector('canvas');
  const labels = section.querySelector('.labels');
  const status = section.querySelector('.status');
  const buttons = Array.from(section.querySelectorAll('button[data-of]'));
  const views = { plan: [-90, 90], front: [-90, 0], side: [0, 0], isometric: [-55, 28] };
  const camera = { azimuth: -55, elevation: 28, zoom: 1, hung: Boolean(data.hook) };
  let chosen = -1; // number of the part that is picked out
  let gl = null;
  let scene = null;

  // --- vectors ---------------------------------------------------------------
  const add = (a, b, by) => [a[0] + b[0] * by, a[1] + b[1] * by, a[2] + b[2] * by];
  const minus = (a, b) => add(a, b, -1);
  const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  const cross = (a, b) => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
  const length = (a) => Math.sqrt(dot(a, a));
  const unit = (a) => add([0, 0, 0], a, 1 / (length(a) || 1));
  const times = (rows, v) => rows.map((row) => dot(row, v));
  const radians = (degrees) => (degrees * Math.PI) / 180;

  // upright turns the direction up to the vertical, the short way (Rodrigues).
  function upright(up) {
    const axis = cross(up, [0, 0, 1]);
    const sin = length(axis);
    const cos = up[2];
    if (sin < 1e-12) return cos > 0 ? [[1, 0, 0], [0, 1, 0], [0, 0, 1]] : [[1, 0, 0], [0, -1, 0], [0, 0, -1]];
    const [x, y, z] = unit(axis);
    const c = 1 - cos;
    return [
      [cos + x * x * c, x * y * c - z * sin, x * z * c + y * sin],
      [y * x * c + z * sin, cos + y * y * c, y * z * c - x * sin],
      [z * x * c - y * sin, z * y * c + x * sin, cos + z * z * c],
    ];
  }

  // --- where things are on the screen ----------------------------------------
  const places = [data.low, data.high].concat(data.legs.flatMap((leg) => [leg.at, leg.top]), data.hook ? [data.hook] : []);
  const low = [0, 1, 2].map((i) => Math.min(...places.map((p) => p[i])));
  const high = [0, 1, 2].map((i) => Math.max(...places.map((p) => p[i])));
  const centre = add(low, minus(high, low), 0.5);
  const radius = length(minus(high, low)) / 2 || 1;
  const hanging = upright(data.up);
  const drawn = upright([0, 0, 1]);
  const pose = () => (camera.hung ? hanging : drawn);

  // eye is the camera's rows: to the right, up, and toward the eye.
  function eye() {
    const a = radians(camera.azimuth);
    const e = radians(camera.elevation);
    return [
      [-Math.sin(a), Math.cos(a), 0],
      [-Math.sin(e) * Math.cos(a), -Math.sin(e) * Math.sin(a), Math.cos(e)],
      [Math.cos(e) * Math.cos(a), Math.cos(e) * Math.sin(a), Math.sin(e)],
    ];
  }

  // turned is the camera's rows for places on the load, or for what stays level.
  function turned(level) {
    const rows = eye();
    if (level) return rows;
    const turn = pose();
    const columns = [0, 1, 2].map((i) => turn.map((row) => row[i]));
    return rows.map((row) => columns.map((column) => dot(row, column)));
  }

  const pixelsPerMetre = () => (0.47 * camera.zoom * Math.min(canvas.clientWidth, canvas.clientHeight)) / radius;

  // projection gives, for the camera as it is, the place on the canvas in CSS pixels
  // from its upper left corner, and how near it is to the eye.
  function projection() {
    const rows = turned(false);
    const by = pixelsPerMetre();
    const [x, y] = [canvas.clientWidth / 2, canvas.clientHeight / 2];
    return (place) => {
      const at = times(rows, minus(place, centre));
      return [x + at[0] * by, y - at[1] * by, at[2]];
    };
  }
  const project = (place) => projection()(place);

  // --- surfaces --------------------------------------------------------------
  // Colours apart in grey too: each is followed by one much lighter or darker.
  const inks = [[0.36, 0.53, 0.69], [0.93, 0.83, 0.55], [0.55, 0.36, 0.30], [0.72, 0.82, 0.70], [0.30, 0.43, 0.36],
    [0.90, 0.68, 0.58], [0.44, 0.40, 0.58], [0.83, 0.85, 0.88], [0.60, 0.55, 0.38], [0.68, 0.78, 0.88]];
  const dark = [0.08, 0.09, 0.1];

  // mesh collects corners: place, direction of the surface, colour, part.
  function mesh() {
    const list = [];
    const corner = (p, n, colour, part) => list.push(p[0], p[1], p[2], n[0], n[1], n[2], colour[0], colour[1], colour[2], part);
    return {
      list,
      face(a, b, c, colour, part) {
        const n = unit(cross(minus(b, a), minus(c, a)));
        for (const p of [a, b, c]) corner(p, n, colour, part);
      },
      line(a, b, colour, part) {
        for (const p of [a, b]) corner(p, [0, 0, 0], colour, part);
      },
    };
  }

  const corners = (solid) => {
    const out = [];
    for (let i = 0; i < solid.v.length; i += 3) out.push([solid.v[i] * 1e-4, solid.v[i + 1] * 1e-4, solid.v[i + 2] * 1e-4]);
    return out;
  };

  // edges draws the sides at which a surface ends or turns by more than 25°; of
  // surfaces that were made coarser, 60°, since they are rough where they were fine.
  function edges(into, points, faces, colour, part) {
    const sides = new Map();
    for (let i = 0; i < faces.length; i += 3) {
      const f = [faces[i], faces[i + 1], faces[i + 2]];
      const normal = unit(cross(minus(points[f[1]], points[f[0]]), minus(points[f[2]], points[f[0]])));
      for (let k = 0; k < 3; k++) {
        const a = Math.min(f[k], f[(k + 1) % 3]);
        const b = Math.max(f[k], f[(k + 1) % 3]);
        const key = a * points.length + b;
        const side = sides.get(key);
        if (side) side.normals.push(normal);
        else sides.set(key, { a, b, normals: [normal] });
      }
    }
    for (const side of sides.values()) {
      const two = side.normals.length === 2;
      const hidden = data.coarse ? !two || dot(side.normals[0], side.normals[1]) > 0.5 : two && dot(side.normals[0], side.normals[1]) > 0.906;
      if (!hidden) into.line(points[side.a], points[side.b], colour, part);
    }
  }

  // bar is a square bar from one place to another.
  function bar(into, from, to, half, colour) {
    const along = unit(minus(to, from));
    const across = unit(cross(along, Math.abs(along[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
    const other = cross(along, across);
    const ring = (p) => [[1, 1], [-1, 1], [-1, -1], [1, -1]].map(([s, t]) => add(add(p, across, s * half), other, t * half));
    const near = ring(from);
    const far = ring(to);
    for (let i = 0; i < 4; i++) {
      const k = (i + 1) % 4;
      into.face(near[i], far[i], far[k], colour, -1);
      into.face(near[i], far[k], near[k], colour, -1);
    }
  }

  // A leg is thicker the more it carries, whole where it governs or nearly so,
  // in long pieces where it carries less, and in short ones where it is slack.
  function leg(into, one) {
    const colour = one.slack ? [0.45, 0.45, 0.47] : one.use >= 0.9 ? [0.62, 0.1, 0.08] : one.use >= 0.6 ? [0.8, 0.45, 0.0] : [0.12, 0.38, 0.6];
    const half = radius * (0.0035 + 0.0055 * one.use);
    const pieces = one.slack ? 24 : one.use >= 0.9 ? 1 : 9;
    const whole = minus(one.top, one.at);
    for (let i = 0; i < pieces; i++) {
      const filled = pieces === 1 ? 1 : one.slack ? 0.5 : 0.82;
      bar(into, add(one.at, whole, i / pieces), add(one.at, whole, (i + filled) / pieces), half, colour);
    }
  }

  // ball is the mark of a CG: opposite eighths of it black and white.
  function ball(into, at, size) {
    const on = (i, k) => {
      const a = (i * Math.PI) / 8;
      const e = (k * Math.PI) / 8 - Math.PI / 2;
      return add(at, [Math.cos(a) * Math.cos(e), Math.sin(a) * Math.cos(e), Math.sin(e)], size);
    };
    for (let i = 0; i < 16; i++) {
      for (let k = 0; k < 8; k++) {
        const colour = (Math.floor(i / 4) + Math.floor(k / 4)) % 2 ? dark : [1, 1, 1];
        into.face(on(i, k), on(i + 1, k), on(i + 1, k + 1), colour, -1);
        into.face(on(i, k), on(i + 1, k + 1), on(i, k + 1), colour, -1);
      }
    }
  }

  // --- WebGL -----------------------------------------------------------------
  const vertexShader = `
    attribute vec3 place, normal, colour;
    attribute float part;
    uniform mat3 turn;
    uniform vec3 centre, size;
    varying vec3 shade;
    varying float own;
    void main() {
      vec3 at = turn * (place - centre);
      gl_Position = vec4(at * size, 1.0);
      vec3 n = turn * normal;
      float light = dot(normal, normal) < 0.5 ? 1.0 : 0.55 + 0.45 * abs(dot(n, normalize(vec3(0.35, 0.65, 0.7))));
      shade = colour * light;
      own = part;
    }`;
  const fragmentShader = `
    precision mediump float;
    uniform float chosen, stripe;
    varying vec3 shade;
    varying float own;
    void main() {
      vec3 ink = shade;
      if (chosen >= 0.0 && own >= 0.0) {
        if (abs(own - chosen) < 0.5) {
          bool on = mod(gl_FragCoord.x + gl_FragCoord.y, stripe * 2.0) < stripe;
          ink = on ? vec3(0.85, 0.2, 0.0) : vec3(1.0, 0.85, 0.3);
        } else {
          ink = mix(vec3(dot(shade, vec3(0.3, 0.59, 0.11))), vec3(1.0), 0.55);
        }
      }
      gl_FragColor = vec4(ink, 1.0);
    }`;

  function program() {
    const made = gl.createProgram();
    for (const [kind, text] of [[gl.VERTEX_SHADER, vertexShader], [gl.FRAGMENT_SHADER, fragmentShader]]) {
      const shader = gl.createShader(kind);
      gl.shaderSource(shader, text);
      gl.compileShader(shader);
      gl.attachShader(made, shader);
    }
    gl.linkProgram(made);
    return gl.getProgramParameter(made, gl.LINK_STATUS) ? made : null;
  }

  function stored(list) {
    const buffer = gl.createBuffer();
    gl.bindBuffer(gl.ARRAY_BUFFER, buffer);
    gl.bufferData(gl.ARRAY_BUFFER, new Float32Array(list), gl.STATIC_DRAW);
    return { buffer, count: list.length / 10 };
  }

  // build makes what is drawn, once.
  function build(shader) {
    const [faces, lines, rigging, marks] = [mesh(), mesh(), mesh(), mesh()];
    const plumb = data.hook && !data.bars.length ? 2 : 0; // corners of the plumb line, before those of the ball; under bars the load's own CG need not be below the hook
    const triangles = []; // for finding the part that was clicked
    data.parts.forEach((part, number) => {
      for (const solid of part.solids) {
        const points = corners(solid);
        edges(lines, points, solid.f, dark, number);
        if (solid.hole) continue; // shown by its rim: holes are not cut in this view
        for (let i = 0; i < solid.f.length; i += 3) {
          const [a, b, c] = [points[solid.f[i]], points[solid.f[i + 1]], points[solid.f[i + 2]]];
          faces.face(a, b, c, inks[number % inks.length], number);
          triangles.push([a, b, c, number]);
        }
      }
    });
    if (data.hook) {
      data.legs.forEach((one) => leg(rigging, one));
      const ring = [0, 1, 2, 3, 4, 5, 6, 7, 8].map((i) => add(data.hook, [Math.cos((i * Math.PI) / 4), 0, Math.sin((i * Math.PI) / 4)], radius * 0.03));
      for (let i = 0; i < 8; i++) bar(rigging, ring[i], ring[i + 1], radius * 0.007, dark);
      for (const ends of data.bars) for (let i = 1; i < ends.length; i++) bar(rigging, ends[i - 1], ends[i], radius * 0.014, dark);
      if (plumb) marks.line(data.hook, data.cg, dark, -1);
    }
    ball(marks, data.cg, radius * 0.028);
    return { shader, triangles, plumb, faces: stored(faces.list), lines: stored(lines.list), rigging: stored(rigging.list), marks: stored(marks.list) };
  }

  // level is a square that lies level under the load.
  function level() {
    const out = mesh();
    let foot = Infinity;
    for (let i = 0; i < 8; i++) {
      const corner = [0, 1, 2].map((k) => ((i >> k) & 1 ? data.high[k] : data.low[k]));
      foot = Math.min(foot, times(pose(), minus(corner, centre))[2]);
    }
    const half = radius * 0.75;
    const at = (x, y) => add(centre, [x * half, y * half, foot], 1);
    for (let i = -4; i <= 4; i++) {
      out.line(at(i / 4, -1), at(i / 4, 1), [0.8, 0.8, 0.8], -1);
      out.line(at(-1, i / 4), at(1, i / 4), [0.8, 0.8, 0.8], -1);
    }
    return stored(out.list);
  }

  function show(what, how, isLevel, from, count) {
    gl.bindBuffer(gl.ARRAY_BUFFER, what.buffer);
    let offset = 0;
    for (const [name, size] of [['place', 3], ['normal', 3], ['colour', 3], ['part', 1]]) {
      const at = gl.getAttribLocation(scene.shader, name);
      gl.enableVertexAttribArray(at);
      gl.vertexAttribPointer(at, size, gl.FLOAT, false, 40, offset);
      offset += 4 * size;
    }
    const rows = turned(isLevel);
    const columns = [0, 1, 2].flatMap((i) => rows.map((row) => row[i]));
    gl.uniformMatrix3fv(gl.getUniformLocation(scene.shader, 'turn'), false, columns);
    gl.drawArrays(how, from || 0, count === undefined ? what.count : count);
  }

  function draw() {
    if (!gl) return;
    const sharp = window.devicePixelRatio || 1;
    const [wide, tall] = [Math.round(canvas.clientWidth * sharp), Math.round(canvas.clientHeight * sharp)];
    if (canvas.width !== wide || canvas.height !== tall) [canvas.width, canvas.height] = [wide, tall];
    gl.viewport(0, 0, wide, tall);
    gl.clearColor(1, 1, 1, 1);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
    gl.enable(gl.DEPTH_TEST);
    gl.useProgram(scene.shader);
    const by = pixelsPerMetre();
    const uniform = (name) => gl.getUniformLocation(scene.shader, name);
    gl.uniform3fv(uniform('centre'), centre);
    gl.uniform3f(uniform('size'), (2 * by) / canvas.clientWidth, (2 * by) / canvas.clientHeight, -0.3 / radius);
    gl.uniform1f(uniform('chosen'), chosen);
    gl.uniform1f(uniform('stripe'), 4 * sharp);
    const under = level();
    show(under, gl.LINES, true);
    gl.deleteBuffer(under.buffer);
    gl.enable(gl.POLYGON_OFFSET_FILL);
    gl.polygonOffset(1, 1); // edges stand before their own faces
    show(scene.faces, gl.TRIANGLES);
    gl.disable(gl.POLYGON_OFFSET_FILL);
    show(scene.lines, gl.LINES);
    show(scene.rigging, gl.TRIANGLES);
    gl.clear(gl.DEPTH_BUFFER_BIT); // the CG is seen through the load
    show(scene.marks, gl.LINES, false, 0, scene.plumb);
    show(scene.marks, gl.TRIANGLES, false, scene.plumb, scene.marks.count - scene.plumb);
    write();
  }

  // --- words -----------------------------------------------------------------
  // write puts the labels where they belong, each below those that it would cover.
  function write() {
    const wanted = data.legs.filter(() => data.hook).map((one) => [one.text, add(one.at, minus(one.top, one.at), 0.45)]);
    if (data.hook) wanted.push(['hook', data.hook]);
    wanted.push(['CG', data.cg]);
    while (labels.children.length < wanted.length) labels.appendChild(document.createElement('span'));
    const taken = [];
    wanted.forEach(([text, place], i) => {
      const span = labels.children[i];
      if (span.textContent !== text) span.textContent = text;
      const [wide, tall] = [span.offsetWidth, span.offsetHeight];
      let [x, y] = project(place);
      x = Math.max(0, Math.min(canvas.clientWidth - wide, x + 8));
      y = Math.max(0, Math.min(canvas.clientHeight - tall, y - tall / 2));
      for (let tries = 0; tries < 20; tries++) {
        const other = taken.find((t) => x < t[0] + t[2] && t[0] < x + wide && y < t[1] + t[3] && t[1] < y + tall);
        if (!other) break;
        y = other[1] + other[3] + 1;
      }
      taken.push([x, y, wide, tall]);
      span.style.transform = 'translate(' + x.toFixed(1) + 'px,' + y.toFixed(1) + 'px)';
    });
  }

  function tell() {
    const part = chosen < 0 ? '' : ' Picked out: ' + data.parts[chosen].name + ', ' + data.parts[chosen].weight + '.';
    status.textContent = (camera.hung ? data.hungText : 'As drawn.') + part;
    for (const one of buttons) {
      const on = { hung: () => camera.hung, drawn: () => !camera.hung, part: () => chosen >= 0 && one.dataset.name === data.parts[chosen].name }[one.dataset.of];
      if (on) one.setAttribute('aria-pressed', String(on()));
    }
  }

  // choose picks a part out in the view, in the list and in the drawings.
  function choose(number) {
    chosen = number === chosen ? -1 : number;
    const name = chosen < 0 ? null : data.parts[chosen].name;
    for (const mark of document.querySelectorAll('.drawing .m-part, .drawing .m-hole')) {
      mark.classList.toggle('chosen', name !== null && mark.getAttribute('data-part') === name);
    }
    tell();
    draw();
  }

  function named(name) {
    return data.parts.findIndex((part) => part.name === name);
  }

  function turn(azimuth, elevation) {
    camera.azimuth += azimuth;
    camera.elevation = Math.max(-90, Math.min(90, camera.elevation + elevation));
    draw();
  }

  function zoom(by) {
    camera.zoom = Math.max(0.3, Math.min(20, camera.zoom * by));
    draw();
  }

  function look(name) {
    [camera.azimuth, camera.elevation] = views[name];
    camera.zoom = 1;
    draw();
  }

  function hang(hung) {
    camera.hung = hung;
    tell();
    draw();
  }

  // clicked is the number of the part nearest to the eye at a place on the canvas.
  function clicked(x, y) {
    let [found, nearest] = [-1, -Infinity];
    const on = projection();
    for (const [a, b, c, part] of scene.triangles) {
      const [p, q, r] = [on(a), on(b), on(c)];
      const area = (q[0] - p[0]) * (r[1] - p[1]) - (r[0] - p[0]) * (q[1] - p[1]);
      if (area === 0) continue;
      const s = ((x - p[0]) * (r[1] - p[1]) - (r[0] - p[0]) * (y - p[1])) / area;
      const t = ((q[0] - p[0]) * (y - p[1]) - (x - p[0]) * (q[1] - p[1])) / area;
      const near = p[2] + s * (q[2] - p[2]) + t * (r[2] - p[2]);
      if (s >= 0 && t >= 0 && s + t <= 1 && near > nearest) [found, nearest] = [part, near];
    }
    return found;
  }

  // --- hands -----------------------------------------------------------------
  const fingers = new Map();
  let moved = 0;
  const spread = () => {
    const [a, b] = Array.from(fingers.values());
    return Math.hypot(a[0] - b[0], a[1] - b[1]);
  };
  canvas.addEventListener('pointerdown', (event) => {
    canvas.setPointerCapture(event.pointerId);
    fingers.set(event.pointerId, [event.offsetX, event.offsetY]);
    moved = fingers.size > 1 ? Infinity : 0;
  });
  canvas.addEventListener('pointermove', (event) => {
    const last = fingers.get(event.pointerId);
    if (!last) return;
    const before = fingers.size === 2 ? spread() : 0;
    fingers.set(event.pointerId, [event.offsetX, event.offsetY]);
    if (before) return zoom(spread() / before);
    const [x, y] = [event.offsetX - last[0], event.offsetY - last[1]];
    moved += Math.abs(x) + Math.abs(y);
    turn(-0.5 * x, 0.5 * y);
  });
  canvas.addEventListener('pointerup', (event) => {
    fingers.delete(event.pointerId);
    if (!gl || moved > 4) return;
    const part = clicked(event.offsetX, event.offsetY);
    choose(part < 0 ? chosen : part); // beside the load: nothing is picked out
  });
  canvas.addEventListener('pointercancel', (event) => fingers.delete(event.pointerId));
  canvas.addEventListener('wheel', (event) => {
    if (document.activeElement !== canvas) return; // the page scrolls
    event.preventDefault();
    zoom(Math.exp(-event.deltaY / 500));
  }, { passive: false });
  const keys = {
    ArrowLeft: () => turn(-5, 0), ArrowRight: () => turn(5, 0), ArrowUp: () => turn(0, 5), ArrowDown: () => turn(0, -5),
    '+': () => zoom(1.2), '=': () => zoom(1.2), '-': () => zoom(1 / 1.2), Home: () => look('isometric'), Escape: () => choose(chosen),
  };
  canvas.addEventListener('keydown', (event) => {
    if (!keys[event.key] || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    keys[event.key]();
  });
  for (const one of buttons) {
    const does = { drawn: () => hang(false), hung: () => hang(true), part: () => choose(named(one.dataset.name)), look: () => look(one.dataset.name),
      nearer: () => zoom(1.25), farther: () => zoom(0.8) }[one.dataset.of];
    one.addEventListener('click', does);
  }
  for (const mark of document.querySelectorAll('.drawing .m-part[data-part], .drawing .m-hole[data-part]')) {
    mark.addEventListener('click', () => choose(named(mark.getAttribute('data-part'))));
  }
  section.querySelector('.tools').hidden = false;
  tell();

  function start() {
    gl = canvas.getContext('webgl');
    const shader = gl && program();
    if (!shader) {
      gl = null;
      return; // the words in place of the view stay
    }
    scene = build(shader);
    section.querySelector('.instead').hidden = true;
    section.querySelector('.stage').hidden = false;
    draw();
    window.addEventListener('resize', draw);
    canvas.addEventListener('webglcontextlost', () => { gl = null; });
  }

  // For tests: where a place of the load is on the canvas, and the camera.
  window.plumbhookView = {
    data, inks, project, draw, ready: () => Boolean(gl), chosen: () => (chosen < 0 ? null : data.parts[chosen].name),
    set: (to) => { Object.assign(camera, to); tell(); draw(); }, get: () => Object.assign({}, camera),
  };
  if (!('IntersectionObserver' in window)) return start();
  const watch = new IntersectionObserver((seen) => {
    if (!seen.some((one) => one.isIntersecting)) return;
    watch.disconnect();
    start();
  });
  watch.observe(section);
}());
