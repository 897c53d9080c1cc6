package takeoff

import (
	"bytes"
	"encoding/binary"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/units"
)

func binarySTL(m geom.Mesh) []byte {
	out := binary.LittleEndian.AppendUint32(make([]byte, 80), uint32(len(m.Faces)))
	for i := range m.Faces {
		a, b, c := m.Triangle(i)
		for _, v := range []geom.Vec{{}, a, b, c} {
			for _, x := range v {
				out = binary.LittleEndian.AppendUint32(out, math.Float32bits(float32(x)))
			}
		}
		out = append(out, 0, 0)
	}
	return out
}

// A cube of side 2 whose farthest coordinate is between 2¹⁴ and 2¹⁵ lies where
// float32 numbers are 2⁻⁹ apart (IEEE 754: 24 digits), so by area × √3/2 × 2⁻⁹ over the
// volume, 24·0.8660/512/8, its volume is known to 0.507 %.
func TestCoarseNumbersFarFromTheDatumWidenTheWeight(t *testing.T) {
	cm, err := units.ParseLengthUnit("cm")
	require.NoError(t, err)
	read := func(stl []byte) Part {
		l, err := ReadFrom(bytes.NewReader(stl), "-", nil, Options{Material: "steel", MeshUnits: cm, As: "stl"})
		require.NoError(t, err)
		return l.Parts[0]
	}
	near := read(binarySTL(cube(2)))
	far := read(binarySTL(cube(2).Posed(geom.Still().Shifted(geom.Vec{20_000, 0, 0}))))
	doubt := 24 * math.Sqrt(3) / 2 / 512 / 8
	assert.InDelta(t, (1+near.High)*(1+doubt), 1+far.High, 1e-9)
	assert.InDelta(t, (1+near.Low)*(1-doubt), 1+far.Low, 1e-9)
	assert.Contains(t, far.Basis, "widened by 0.51 %")
	assert.NotContains(t, near.Basis, "coarse")
}
