package takeoff

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

// A mesh whose two measurings disagree gives no figure: main tells of it as a fault
// of the program, exit code 1.
func TestMeshThatIsMeasuredTwoWays(t *testing.T) {
	in, err := os.Open("../samples/gearbox-housing.stl")
	require.NoError(t, err)
	defer in.Close()
	var m readMesh
	require.NoError(t, m.decode(in, ".stl", geom.Limits{}))
	require.NotNil(t, m.info.Streamed)
	m.info.Streamed.About.Volume *= 1.000001
	defer func() {
		require.Contains(t, recover(), "two ways to measure the mesh of 232 facets disagree, so no figure is given: a volume of ")
	}()
	m.mustAgree()
}
