// Colours and differences of 3,000 pairs by the npm packages culori 4.0.2 and colorjs.io 0.5.2.
// node color_programs.mjs, in a folder where both are installed; writes color_programs.csv.
// culori: L*a*b*, L*u*v* of D65 XYZ, and CIEDE2000, CIE94 (its differenceCie94 with kL 1, K1 0.045, K2 0.015), CIE76. colorjs.io, whose
// differences are taken in its D50 L*a*b*, given the same numbers: CIEDE2000, CMC(2:1).
import { writeFileSync } from "node:fs";
import Color from "colorjs.io";
import { converter, differenceCie76, differenceCie94, differenceCiede2000 } from "culori";

let seed = 2026;
const random = () => (seed = (seed * 1103515245 + 12345) % 2147483648) / 2147483648;
const toLab = converter("lab65"), toXyz = converter("xyz65");
const e76 = differenceCie76(), e94 = differenceCie94(), e00 = differenceCiede2000();
const lines = ["L1,a1,b1,L2,a2,b2,x1,y1,z1,cie76,cie94,ciede2000_culori,ciede2000_colorjs,cmc"];
for (let i = 0; i < 3000; i++) {
	const one = [5 + 94 * random(), 120 * random() - 60, 120 * random() - 60];
	const far = i % 3 == 0 ? 2 : i % 3 == 1 ? 10 : 100;
	const two = [Math.min(100, Math.max(0, one[0] + far * (random() - 0.5))), one[1] + far * (random() - 0.5), one[2] + far * (random() - 0.5)];
	const [p, q] = [one, two].map(v => v.map(x => +x.toFixed(3)));
	const [a, b] = [p, q].map(v => ({ mode: "lab65", l: v[0], a: v[1], b: v[2] }));
	const [c, d] = [p, q].map(v => new Color("lab", v));
	const xyz = toXyz(a);
	lines.push([...p, ...q, ...[xyz.x, xyz.y, xyz.z].map(v => +(100 * v).toFixed(6)),
		...[e76(a, b), e94(a, b), e00(a, b), c.deltaE(d, "2000"), c.deltaE(d, "CMC")].map(v => +v.toFixed(6))].join(","));
}
writeFileSync("color_programs.csv", lines.join("\n") + "\n");
