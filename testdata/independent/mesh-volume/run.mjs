// Measures the meshes in meshes/ and the loads in loads/ with two libraries
// for solids from outside the project, and writes results.csv. See README.md.
import { createHash } from 'node:crypto'
import { readFileSync, readdirSync, writeFileSync } from 'node:fs'
import Module from 'manifold-3d'
import modeling from '@jscad/modeling'

const here = new URL('.', import.meta.url)
const version = (name) => JSON.parse(readFileSync(new URL(`node_modules/${name}/package.json`, here))).version
const wasm = await Module()
wasm.setup()
const { Manifold, Mesh } = wasm
const { measurements, geometries } = modeling

const libraries = { manifold: ['manifold-3d', version('manifold-3d')], jscad: ['@jscad/modeling', version('@jscad/modeling')] }
const rows = []
const add = (name, what, value, unit, library, hash, source) => {
  if (!Number.isFinite(value)) throw new Error(`${name}: ${what} is ${value}`)
  rows.push([name, what, value, unit, ...libraries[library], hash, source, 'computed'])
}

// triangles reads a binary STL: as [[a, b, c], ...], each corner [x, y, z].
function triangles (bytes) {
  const n = bytes.readUInt32LE(80)
  return Array.from({ length: n }, (_, i) => [0, 1, 2].map((corner) =>
    [0, 1, 2].map((axis) => bytes.readFloatLE(84 + 50 * i + 12 * (corner + 1) + 4 * axis))))
}

// solid joins triangles at equal corners and hands them to manifold-3d.
function solid (list) {
  const index = new Map()
  const points = []
  const triVerts = list.flat().map((v) => {
    const key = v.map((x) => x + 0).join() // −0 is 0
    if (!index.has(key)) { index.set(key, index.size); points.push(...v) }
    return index.get(key)
  })
  return new Manifold(new Mesh({ numProp: 3, vertProperties: Float32Array.from(points), triVerts: Uint32Array.from(triVerts) }))
}

const shell = (list) => geometries.geom3.create(list.map((t) => geometries.poly3.create(t)))

function measureMesh (file) {
  const bytes = readFileSync(new URL(`meshes/${file}`, here))
  const hash = createHash('sha256').update(bytes).digest('hex')
  const list = triangles(bytes)
  const m = solid(list)
  add(file, 'volume', m.volume(), 'm3', 'manifold', hash, 'Manifold.volume')
  add(file, 'area', m.surfaceArea(), 'm2', 'manifold', hash, 'Manifold.surfaceArea')
  const { min, max } = m.boundingBox()
  for (const i of [0, 1, 2]) add(file, `min ${'xyz'[i]}`, min[i], 'm', 'manifold', hash, 'Manifold.boundingBox')
  for (const i of [0, 1, 2]) add(file, `max ${'xyz'[i]}`, max[i], 'm', 'manifold', hash, 'Manifold.boundingBox')
  const g = shell(list)
  add(file, 'volume', measurements.measureVolume(g), 'm3', 'jscad', hash, 'measureVolume')
  add(file, 'area', measurements.measureArea(g), 'm2', 'jscad', hash, 'measureArea')
  const c = measurements.measureCenterOfMass(g)
  for (const i of [0, 1, 2]) add(file, `centroid ${'xyz'[i]}`, c[i], 'm', 'jscad', hash, 'measureCenterOfMass')
}

// The round solids of this library are made of flat sides with their corners
// on the round. Wider by `over` they lie outside of it and touch it instead.
// So each solid is made twice, `small` within the true one and large around it.
const sides = 1024
const ballSides = 512
const over = 1 / Math.cos(Math.PI / sides)

const bar = (radius, length, small) => Manifold.cylinder(length, small ? radius : radius * over, -1, sides)

// ballOver is how much a ball must grow for its nearest side to touch the round.
const ballOver = (() => {
  const mesh = Manifold.sphere(1, ballSides).getMesh()
  let least = 1
  for (let t = 0; t < mesh.triVerts.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => mesh.vertProperties.slice(mesh.numProp * mesh.triVerts[t + k], mesh.numProp * mesh.triVerts[t + k] + 3))
    const u = b.map((x, i) => x - a[i])
    const v = c.map((x, i) => x - a[i])
    const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]]
    least = Math.min(least, (n[0] * a[0] + n[1] * a[1] + n[2] * a[2]) / Math.hypot(...n))
  }
  return 1 / (least - 1e-6) // getMesh rounds its corners to 6e-8
})()

// between lays a solid along +z from one place to another.
function between (s, from, to) {
  const way = to.map((x, i) => x - from[i])
  const level = Math.hypot(way[0], way[1])
  return s.rotate([0, Math.atan2(level, way[2]) * 180 / Math.PI, 0])
    .rotate([0, 0, Math.atan2(way[1], way[0]) * 180 / Math.PI]).translate(from)
}

// make builds one solid of a load file, in millimetres. What it does not know
// it refuses, so that nothing is left out in silence.
function make (part, small) {
  const { name, cuts, displaces, box, rod, tube, sphere, from, to, center, corner, turn = [], ...rest } = part
  if (Object.keys(rest).length) throw new Error(`not known here: ${Object.keys(rest)}`)
  const length = from && Math.hypot(...to.map((x, i) => x - from[i]))
  if (rod) return between(bar(rod.diameter / 2, length, small), from, to)
  if (tube) {
    const bore = bar(tube.outside / 2 - tube.wall, length, !small)
    return between(Manifold.difference(bar(tube.outside / 2, length, small), bore), from, to)
  }
  if (sphere) return Manifold.sphere(sphere.diameter / 2 * (small ? 1 : ballOver), ballSides).translate(center)
  const size = box.split(' x ').map(Number)
  let s = Manifold.cube(size, true)
  for (const one of turn) {
    const [axis, degrees] = one.split(' ')
    s = s.rotate(['x', 'y', 'z'].map((a) => a === axis ? Number(degrees) : 0))
  }
  return s.translate(center ?? corner.map((x, i) => x + size[i] / 2))
}

// whole is a part with its cuts taken away: the large cuts from the small part.
function whole (part, small) {
  return (part.cuts ?? []).reduce((s, cut) => Manifold.difference(s, make(cut, !small)), make(part, small))
}

function measureLoad (file) {
  const bytes = readFileSync(new URL(`loads/${file}`, here))
  const hash = createHash('sha256').update(bytes).digest('hex')
  const { parts, units } = JSON.parse(bytes)
  if (units !== 'mm') throw new Error(`${file}: want mm`)
  for (const small of [true, false]) {
    const bound = small ? 'low' : 'high'
    const made = parts.map((p) => whole(p, small))
    const all = Manifold.union(made)
    add(file, `union ${bound}`, all.volume() / 1e9, 'm3', 'manifold', hash, 'Manifold.union, difference, volume')
    if (made.length === 2) {
      add(file, `common ${bound}`, Manifold.intersection(made).volume() / 1e9, 'm3', 'manifold', hash, 'Manifold.intersection, volume')
    }
    const { triVerts, vertProperties, numProp } = all.getMesh()
    const corner = (k) => Array.from(vertProperties.slice(numProp * triVerts[k], numProp * triVerts[k] + 3))
    const list = []
    for (let t = 0; t < triVerts.length; t += 3) list.push([corner(t), corner(t + 1), corner(t + 2)])
    const c = measurements.measureCenterOfMass(shell(list))
    for (const i of [0, 1, 2]) add(file, `centroid ${'xyz'[i]} ${bound}`, c[i] / 1e3, 'm', 'jscad', hash, 'measureCenterOfMass of the union by manifold-3d')
  }
}

readdirSync(new URL('meshes', here)).sort().forEach(measureMesh)
readdirSync(new URL('loads', here)).sort().forEach(measureLoad)
const quoted = (cell) => /[",]/.test(String(cell)) ? `"${cell}"` : cell
const text = [['name', 'what', 'value', 'unit', 'library', 'version', 'input_sha256', 'source', 'basis'], ...rows]
writeFileSync(new URL('results.csv', here), text.map((row) => row.map(quoted).join(',') + '\n').join(''))
console.log(`${rows.length} rows, node ${process.version}`)
