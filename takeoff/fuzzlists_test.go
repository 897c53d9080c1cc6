package takeoff

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"
	"testing/fstest"
)

// listSeeds are lists of each kind, right and wrong, and what is no list.
var listSeeds = []string{
	pieceHead + "P,1,500 x 500 x 500,,,50,,,,,\n",
	"rules,EN\nmark,envelope (mm),weight (kg),load file\nA,2000 x 1000 x 500,900,\nB,,,frame.yaml\nA,1 x 1,-5,../x.yaml\n",
	"mark;envelope;fill;material;weight;picks;cg within\nA;2 m x 1 m x 1 m;12 %;steel;;2;50 mm\n\n;;;;;;\n",
	"currency,EUR\nkind,family,material,size,rated (t),length (m),adjust from (m),buy,hire day\nsling,alloy chain,grade 8,10,2,4,0.5,200,8\nshackle,,,16 mm,3.25,,,14,\ncrane,,,20 t,6,,,,900\nrigger,,,,,,,,400\n",
	"currency,EUR\nkind,size,rated (t),buy\nslng,=1+1,nan,1e999\n",
	rackCSV, top + "P1,1,base,2400 x 1200 x 20,,,,1200,600,10,\n",
	"", "\n\n", "a,b,c\n", "\"", "mark\tenvelope\n\x00", "\xff\xfe", "PK\x03\x04",
}

// fuzzList reads anything as a list of a kind, CSV or XLSX.
func fuzzList(f *testing.F, read func(t *testing.T, files fstest.MapFS, name string)) {
	for _, text := range listSeeds {
		f.Add([]byte(text), false)
	}
	book, err := NewSheet("xlsx")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(book, true)
	f.Fuzz(func(t *testing.T, data []byte, xlsx bool) {
		name := "list.csv"
		if xlsx {
			name = "list.xlsx"
		}
		read(t, fstest.MapFS{name: {Data: bytes.Clone(data)}}, name)
	})
}

// sayWhat sees that an error says what is wrong and how to mend it.
func sayWhat(t *testing.T, err error) {
	t.Helper()
	var problems Problems
	if !errors.As(err, &problems) || len(problems) == 0 {
		t.Fatalf("error of another kind: %v", err)
	}
	for _, p := range problems {
		if p.File == "" || p.Text == "" || p.Fix == "" {
			t.Fatalf("problem without a file, a text or a fix: %+v", p)
		}
	}
}

func FuzzReadPieces(f *testing.F) {
	fuzzList(f, func(t *testing.T, files fstest.MapFS, name string) {
		pieces, err := ReadPieces(files, name, Options{})
		if err != nil {
			sayWhat(t, err)
			return
		}
		for _, p := range pieces {
			switch {
			case p.Mark == "" || p.Quantity < 1 && p.Err == nil:
				t.Fatalf("no piece: %+v", p)
			case p.Err != nil:
				sayWhat(t, p.Err)
			case p.LoadFile == "":
				checkFigures(t, p.Load)
			}
		}
	})
}

func FuzzReadRates(f *testing.F) {
	fuzzList(f, func(t *testing.T, files fstest.MapFS, name string) {
		rates, err := ReadRates(files, name, Options{})
		if err != nil {
			sayWhat(t, err)
			return
		}
		if len(rates.Rows) == 0 || rates.Currency == "" {
			t.Fatalf("no rates: %+v", rates)
		}
		for _, r := range rates.Rows {
			for _, price := range []*float64{r.Buy, r.Day, r.Week, r.Lift, r.Hour, r.Minimum, &r.LeadDays} {
				if price != nil && (!(*price >= 0) || math.IsInf(*price, 0)) {
					t.Fatalf("no price: %+v", r)
				}
			}
		}
	})
}

// FuzzListKind tells lists apart, and lists what they say.
func FuzzListKind(f *testing.F) {
	fuzzList(f, func(t *testing.T, files fstest.MapFS, name string) {
		switch kind := ListKind(files, name, Options{}); kind {
		case "", "rates", "slings", "take-off", "pieces":
		default:
			t.Fatalf("a list of the kind %q", kind)
		}
		Inputs(files, name, Options{})
	})
}

// FuzzInputs lists what a load file says, sound or not.
func FuzzInputs(f *testing.F) {
	f.Add(housing)
	f.Add(head + "- {name: a, box: 1 x 2 x 3, at: [0, 0, 0]}\n- {name: a}\n- 5\n")
	f.Add("a: &a [*a]\n? [b]\n: c\n")
	f.Add("- - - - a")
	f.Fuzz(func(t *testing.T, text string) {
		for _, in := range Inputs(fstest.MapFS{"a.yaml": file(text)}, "a.yaml", Options{}) {
			if strings.ContainsAny(in.Value, "\n\r") {
				t.Fatalf("a value of several lines: %+v", in)
			}
		}
	})
}

// FuzzLookOver looks over anything as a mesh.
func FuzzLookOver(f *testing.F) {
	f.Add([]byte(cubeSTL("a", 100)), uint8(0))
	f.Add([]byte("v 0 0 0\nv 1 0 0\nv 0 1 0\nv 0 0 1\nf 1 3 2\nf 1 2 4\nf 2 3 4\nf 3 1 4\n"), uint8(1))
	f.Add([]byte("ply\nformat ascii 1.0\nelement vertex 3\nproperty float x\nproperty float y\nproperty float z\nelement face 1\nproperty list uchar int vertex_indices\nend_header\n0 0 0\n1 0 0\n0 1 0\n3 0 1 2\n"), uint8(2))
	f.Add([]byte("PK\x03\x04"), uint8(3))
	f.Fuzz(func(t *testing.T, data []byte, kind uint8) {
		name := "mesh." + []string{"stl", "obj", "ply", "3mf"}[kind%4]
		files := fstest.MapFS{name: {Data: bytes.Clone(data)}}
		opt := Options{}
		opt.Limits.Bytes, opt.Limits.Triangles = 1<<20, 1<<12
		mesh, err := LookOver(files, name, opt)
		if err != nil {
			sayWhat(t, err)
			return
		}
		opt.As = strings.TrimPrefix(name, "mesh.")
		again, err := LookOverFrom(bytes.NewReader(data), name, opt)
		if err != nil || again.SHA256 != mesh.SHA256 || len(again.Faults) != len(mesh.Faults) {
			t.Fatalf("by its name %+v, from a stream %+v: %v", mesh, again, err)
		}
		for _, c := range mesh.Candidates {
			if math.IsNaN(c.Volume) || math.IsInf(c.Volume, 0) {
				t.Fatalf("not a figure: %+v", c)
			}
		}
	})
}

// FuzzCraneTable reads anything as the table of a crane.
func FuzzCraneTable(f *testing.F) {
	for _, text := range []string{"radius m,capacity t\n4,30\n8,22\n12,14\n", "radius;capacity\n4 m;30 t\n8 m;31 t\n", "capacity (kg)\tradius (ft)\n\n1000\t10\n", "radius,capacity\n", "", "\"", "radius m,capacity t\n1e400,nan\n-1,5\n"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		files := fstest.MapFS{"load.yaml": file(head + "- {name: a, weight: 5 kg, at: [0, 0, 0]}\nlimits: {crane: {radius: 8 m, table: crane.csv}}\n"), "crane.csv": file(text)}
		l, err := Read(files, "load.yaml", Options{})
		if err != nil {
			sayWhat(t, err)
			return
		}
		for _, row := range l.Rigging.Limits.Crane.Table {
			if !(row.Radius > 0 && row.Radius < longest && row.Capacity > 0 && row.Capacity < heaviest) {
				t.Fatalf("no row of a crane's table: %+v", row)
			}
		}
	})
}

func FuzzParseDate(f *testing.F) {
	for _, text := range []string{"2026-05-04", "2024-02-29", "2023-02-29", "0000-00-00", "9999-12-31", "2026-5-4", ""} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if d, err := ParseDate(text); err == nil && (d.Month < 1 || d.Month > 12 || d.Day < 1 || d.Day > 31) {
			t.Fatalf("%q was read as %+v", text, d)
		}
	})
}
