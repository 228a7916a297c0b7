// Builds bodies in manifold-3d from the same numbers Underfall used and prints
// their volumes, section areas and the gaps between them, for a test to compare.
// Reads JSON on standard input: {meshes: [{name, vertices, triangles, cuts:
// [{matrix}]}], gaps: [{name, a, b, reach}], shared: [{name, a, b}]} with a and b
// meshes.
import Module from 'manifold-3d';
import { readFileSync } from 'fs';

const wasm = await Module();
wasm.setup();
const { Manifold, Mesh } = wasm;
const input = JSON.parse(readFileSync(0, 'utf8'));
const out = [];
for (const m of input.meshes ?? []) {
  const mesh = new Mesh({ numProp: 3, vertProperties: Float32Array.from(m.vertices), triVerts: Uint32Array.from(m.triangles) });
  mesh.merge();
  const body = new Manifold(mesh);
  const row = { name: m.name, status: String(body.status()), volume: body.volume(), genus: body.genus(), sections: [] };
  for (const c of m.cuts) {
    // The matrix brings the cut plane to z = 0.
    row.sections.push(body.transform(c).slice(0).area());
  }
  out.push(row);
}
// The build-up again by this library's own constructions and booleans.
for (const b of input.boards ?? []) {
  const box = (x0, y0, x1, y1, z0, z1) => Manifold.cube([x1 - x0, y1 - y0, z1 - z0]).translate([x0, y0, z0]);
  let body = box(...b.box);
  for (const cut of b.cuts ?? []) body = body.subtract(box(...cut));
  for (const p of b.planes ?? []) body = body.trimByPlane(p.normal, p.offset);
  out.push({ name: b.name, status: String(body.status()), volume: body.volume(), genus: body.genus(), sections: [] });
}
const body = (m) => {
  const mesh = new Mesh({ numProp: 3, vertProperties: Float32Array.from(m.vertices), triVerts: Uint32Array.from(m.triangles) });
  mesh.merge();
  return new Manifold(mesh);
};
for (const g of input.gaps ?? []) {
  const a = body(g.a), b = body(g.b);
  out.push({ name: g.name, status: String(a.status()) + ' ' + String(b.status()), gap: a.minGap(b, g.reach) });
}
for (const s of input.shared ?? []) {
  const a = body(s.a), b = body(s.b);
  out.push({ name: s.name, status: String(a.status()) + ' ' + String(b.status()), volume: a.intersect(b).volume() });
}
console.log(JSON.stringify(out));
