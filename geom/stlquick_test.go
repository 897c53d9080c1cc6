package geom

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// textSTL writes a mesh as text.
func textSTL(m Mesh, format string) []byte {
	var b bytes.Buffer
	b.WriteString("solid ring\n")
	for i := range m.Faces {
		v, w, u := m.Triangle(i)
		n := w.Sub(v).Cross(u.Sub(v)).Normalize()
		fmt.Fprintf(&b, "facet normal "+format+" "+format+" "+format+"\n outer loop\n", n[0], n[1], n[2])
		for _, p := range []Vec{v, w, u} {
			fmt.Fprintf(&b, "  vertex "+format+" "+format+" "+format+"\n", p[0], p[1], p[2])
		}
		b.WriteString(" endloop\nendfacet\n")
	}
	b.WriteString("endsolid ring\n")
	return b.Bytes()
}

// bothText reads text the quick way, in runs of so many bytes, and the strict way.
func bothText(t testing.TB, file []byte, run int64) (quick, strict Mesh, quickErr, strictErr error) {
	f := stlFile{in: bytes.NewReader(file), size: int64(len(file)), text: true, run: run}
	lim := Limits{Triangles: 1 << 14}.orDefault()
	src := textFacets{}
	info, quickErr := f.quickText(lim, 2, func(runs int) { src.list = make([][][3]Vec, runs) }, func(run int) func([][3]Vec) {
		return func(facets [][3]Vec) { src.list[run] = append(src.list[run], facets...) }
	})
	build := newMeshBuilder()
	want, strictErr := readText(bytes.NewReader(file), lim, build.add)
	if quickErr == nil {
		require.NoError(t, strictErr, "what is plain is sound")
		require.Equal(t, want, info)
		src.settle()
		var err error
		quick, err = weldFacets(src)
		require.NoError(t, err)
	}
	return quick, build.mesh(), quickErr, strictErr
}

// Plain text is read the same, to the last bit, by runs of any length.
func TestQuickTextIsTheStrictReader(t *testing.T) {
	for _, format := range []string{"%.8e", "%.17g", "%f", "%g", "%+.3E", "%v"} {
		file := textSTL(ringMesh(2_000), format)
		for name, text := range map[string][]byte{
			"as written": file, "CR LF": bytes.ReplaceAll(file, []byte("\n"), []byte("\r\n")), "upper case": bytes.ToUpper(file),
			"CR": bytes.ReplaceAll(file, []byte("\n"), []byte("\r")), "twice": append(bytes.Clone(file), file...),
			"normal not a number": regexp.MustCompile(`normal .*`).ReplaceAll(file, []byte("normal nan -nan(ind) 1.#IND")),
			"a name like a facet": bytes.Replace(file, []byte("solid ring"), []byte("solid facet normal"), 1),
			"blank lines":         bytes.ReplaceAll(file, []byte("endfacet\n"), []byte("endfacet\n\n \t\n")),
			"byte order mark":     append([]byte("\xef\xbb\xbf"), file...),
		} {
			for _, run := range []int64{300, 1000, 4096, 1 << 20} {
				quick, strict, quickErr, strictErr := bothText(t, text, run)
				require.NoError(t, quickErr, "%s %s %d", format, name, run)
				require.NoError(t, strictErr)
				require.Equal(t, strict, quick, "%s %s %d", format, name, run)
			}
		}
	}
}

// Whatever is not plain is left to the strict reader; nothing is taken for plain
// that it refuses.
func TestQuickTextTakesNothingThatIsRefused(t *testing.T) {
	file := string(textSTL(ringMesh(600), "%.6g"))
	words := []string{"facet", "endfacet", "solid x\n", "endsolid\n", "vertex", "1e400", "1e13", "1-2", "0x1p3", "1,5", "\x00", "\x01", "-", ".", "1e", "nan", "\n", "loop", "99999999999999999999", "1_0"}
	rapid.Check(t, func(rt *rapid.T) {
		text := file
		for range rapid.IntRange(1, 3).Draw(rt, "edits") {
			at := rapid.IntRange(0, len(text)).Draw(rt, "at")
			to := min(len(text), at+rapid.IntRange(0, 12).Draw(rt, "cut"))
			text = text[:at] + rapid.SampledFrom(words).Draw(rt, "word") + text[to:]
		}
		quick, strict, quickErr, _ := bothText(t, []byte(text), int64(rapid.IntRange(200, 3000).Draw(rt, "run")))
		if quickErr == nil {
			require.Equal(t, strict, quick)
		} else if !errors.Is(quickErr, errNotPlain) {
			rt.Fatal(quickErr)
		}
	})
}

// FuzzQuickText: what is plain is read as the strict reader reads it.
func FuzzQuickText(f *testing.F) {
	f.Add(textSTL(ringMesh(100), "%.8e"), uint16(300))
	f.Add([]byte("solid a\nfacet normal 0 0 1\nouter loop\nvertex 1e22 -.5 5.\nvertex 1 0 0\nvertex 0 1 0\nendloop\nendfacet\nendsolid"), uint16(20))
	f.Fuzz(func(t *testing.T, file []byte, run uint16) {
		if len(file) < 1<<16 {
			quick, strict, err, _ := bothText(t, file, int64(run)+8)
			if err == nil {
				require.Equal(t, strict, quick)
			}
		}
	})
}

// Every number is the one that the standard parser reads, or is left to it.
func TestQuickNumber(t *testing.T) {
	check := func(word string) {
		value, to := quickNumber(append([]byte(word), make([]byte, quickPad)...), 0)
		want, fault := parseCoordinate([]byte(word))
		if fault == "" {
			require.Equal(t, len(word), to, word)
			require.Equal(t, math.Float64bits(want), math.Float64bits(value), word)
			exact, err := strconv.ParseFloat(word, 64)
			require.NoError(t, err)
			require.Equal(t, math.Float64bits(exact), math.Float64bits(value), word)
		} else {
			require.True(t, to == 0 || math.Abs(value) > mostCoordinate, word)
		}
	}
	for _, word := range []string{"0", "-0", "+1", "1.", ".5", ".", "-", "", "1e5", "1e", "1e+", "1e+05", "1E-005", "1e0005", "1.2.3", "12345678.12345678", "0.12345678", "0.1234567", "0.123456789",
		"9007199254740993", "9007199254740992", "18446744073709551616", "1e22", "1e23", "1e-22", "1e-23", "4.9e-324", "0.000000000000000000000000000001", "1.00000000000000000000000000", "1e400", "1x", "1-2", "１"} {
		check(word)
	}
	rapid.Check(t, func(rt *rapid.T) {
		x := rapid.Float64Range(-1e12, 1e12).Draw(rt, "x") * math.Pow(10, float64(rapid.IntRange(-20, 0).Draw(rt, "power")))
		check(strconv.FormatFloat(x, rapid.SampledFrom([]byte("efgEG")).Draw(rt, "form"), rapid.IntRange(-1, 20).Draw(rt, "digits"), 64))
		check(rapid.StringMatching(`[-+]?[0-9]{0,12}(\.[0-9]{0,20})?([eE][-+]?[0-9]{0,4})?`).Draw(rt, "word"))
	})
}

// MeasureSTL of text: the figures of the mesh, the same for any number of workers.
func TestMeasureSTLOfText(t *testing.T) {
	mesh := ringMesh(20_000)
	file := textSTL(mesh.Posed(Still().Shifted(Vec{30_000, 40_000, -50_000})), "%.17g")
	read, _, err := ReadSTL(bytes.NewReader(file), Limits{})
	require.NoError(t, err)
	one := measure(t, file, MeasureOptions{Workers: 1})
	require.Equal(t, one, measure(t, file, MeasureOptions{Workers: 5}))
	require.True(t, one.Closed)
	require.Zero(t, one.Spacing)
	want := read.MomentsAbout(one.Origin)
	require.InEpsilon(t, want.Volume, one.About.Volume, 1e-13)
	require.Equal(t, read.Extent(), one.Box)
	strict := measure(t, bytes.Replace(file, []byte("endfacet\nfacet"), []byte("endfacet facet"), -1), MeasureOptions{}) // one line, so not in runs
	require.InEpsilon(t, one.About.Volume, strict.About.Volume, 1e-13)
	require.Equal(t, one.Triangles, strict.Triangles)
	require.True(t, strict.Closed)
	open := bytes.Replace(file, []byte("vertex 3"), []byte("vertex 4"), 1)
	require.False(t, measure(t, open, MeasureOptions{}).Closed)
	_, err = MeasureSTL(strings.NewReader("solid a\nfacet normal 0 0 1\nouter loop\nvertex 1 nan 2\n"), MeasureOptions{})
	require.ErrorContains(t, err, "line 4")
	_, err = MeasureSTL(io.LimitReader(bytes.NewReader(file), 1000), MeasureOptions{})
	require.ErrorContains(t, err, "end of the file")
}

// The word facet at the very end of what a run sees may be the beginning of a longer
// one: nothing between two runs is passed over.
func TestQuickTextAtTheEndOfItsBuffer(t *testing.T) {
	const run = 4096
	first := "solid a\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 1 0 0\nvertex 0 1 0\nendloop\nendfacet\n"
	text := first + strings.Repeat(" ", run+quickSlack-len(first)-len("\nfacet")) + "\nfacets junk\n" + first[len("solid a\n"):] + "endsolid a\n"
	_, _, quickErr, strictErr := bothText(t, []byte(text), run)
	require.Error(t, strictErr)
	require.ErrorIs(t, quickErr, errNotPlain)
}

// fading is a file of which the last read fails, now and then, as on a bad disk.
type fading struct {
	io.ReadSeeker
	in    io.ReaderAt
	left  *atomic.Int64
	fault error
}

func (f fading) ReadAt(p []byte, at int64) (int, error) {
	if f.left.Add(-1) == 0 {
		return 0, f.fault
	}
	return f.in.ReadAt(p, at)
}

func TestAReadThatFailsForOneWorkerIsTold(t *testing.T) {
	file := binarySTL(ringMesh(20_000), Vec{})
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(2))
	for nth := int64(1); nth <= 9; nth++ { // the head, and four runs for each of two workers
		var left atomic.Int64
		left.Store(nth)
		whole := bytes.NewReader(file)
		_, _, err := ReadSTL(fading{whole, whole, &left, errors.New("bad sector")}, Limits{})
		require.ErrorContains(t, err, "bad sector", "read %d", nth)
	}
}
