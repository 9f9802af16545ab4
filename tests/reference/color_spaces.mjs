// Adaptation (Bradford, CAT02, CAT16) and display colours (sRGB, Display P3) by the npm packages colorjs.io 0.5.2 and culori 4.0.2.
// node color_spaces.mjs, in a folder where both are installed; writes color_spaces.csv beside the working directory's script copy.
import { writeFileSync } from "node:fs";
import Color from "colorjs.io";
import { adapt, CATs } from "./node_modules/colorjs.io/src/CATs.js";
import { converter } from "culori";

let seed = 16;
const random = () => (seed = (seed * 1103515245 + 12345) % 2147483648) / 2147483648;
const D65 = [0.95047, 1, 1.08883], A = [1.0985, 1, 0.35585];
const times = (m, v) => m.map(row => row[0] * v[0] + row[1] * v[1] + row[2] * v[2]);
const p3 = converter("p3"), rgb = converter("rgb");
const lines = ["x,y,z,bradford_x,bradford_y,bradford_z,cat02_x,cat02_y,cat02_z,cat16_x,cat16_y,cat16_z,srgb_r,srgb_g,srgb_b,p3_r,p3_g,p3_b"];
for (let i = 0; i < 300; i++) {
	const y = 0.02 + 0.9 * random(), xyz = [y * (0.7 + 0.5 * random()), y, y * (0.3 + 1.0 * random())].map(v => +v.toFixed(6));
	const adapted = ["Bradford", "CAT02", "CAT16"].flatMap(id => times(adapt(D65, A, id), xyz));
	const color = { mode: "xyz65", x: xyz[0], y: xyz[1], z: xyz[2] }, s = rgb(color), p = p3(color);
	lines.push([...xyz.map(v => 100 * v), ...adapted.map(v => 100 * v), s.r, s.g, s.b, p.r, p.g, p.b].map(v => +v.toFixed(9)).join(","));
}
writeFileSync("color_spaces.csv", lines.join("\n") + "\n");
