package takeoff

import (
	"errors"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const pieceHead = "rules,EN\nmark,quantity,envelope (mm),fill,material,weight (kg),tolerance,status,picks,cg within (mm),load file\n"

// Each fault of a row is told at its cell, with what to write.
func TestFaultsOfAPiece(t *testing.T) {
	for _, tt := range []struct{ row, cell, text string }{
		{",1,1000 x 1000 x 1000,,,100,,,,,", "A3", "has no mark"},
		{"P,1,,,,100,,,,,", "C3", "no envelope"},
		{"P,1,1000 x 1000,,,100,,,,,", "C3", "3"},
		{"P,1,1000 x 1000 x 1000,,,,,,,,", "F3", "no weight, nor both"},
		{"P,1,1000 x 1000 x 1000,10 %,,,,,,,", "F3", "no weight, nor both"},
		{"P,1,1000 x 1000 x 1000,1.2,structural steel,,,,,,", "D3", "fill"},
		{"P,1,1000 x 1000 x 1000,0,structural steel,,,,,,", "D3", "fill"},
		{"P,1,1000 x 1000 x 1000,10 %,unobtainium,,,,,,", "E3", "unobtainium"},
		{"P,0,1000 x 1000 x 1000,,,100,,,,,", "B3", "whole number"},
		{"P,1,1000 x 1000 x 1000,,,heavy,,,,,", "F3", "heavy"},
		{"P,1,1000 x 1000 x 1000,,,100,,,3,,", "I3", "pattern of picks"},
		{"P,1,1000 x 1000 x 1000,,,100,,guessed,,,", "H3", "guessed"},
		{"P,1,1000 x 1000 x 1000,,,100,200 to,,,,", "G3", "200 to"},
		{"P,1,1000 x 1000 x 1000,,,100,,,,-5,", "J3", "-5"},
		{"P,1,=A1,,,100,,,,,", "C3", "formula"},
		{"P,1,,,,,,,,,../../x.yaml", "K3", "can't be read"},
	} {
		pieces, err := ReadPieces(fstest.MapFS{"p.csv": {Data: []byte(pieceHead + tt.row + "\nQ,1,500 x 500 x 500,,,50,,,,,\n")}}, "p.csv", Options{})
		if err == nil {
			require.Len(t, pieces, 2, tt.row)
			assert.NoError(t, pieces[1].Err, "one bad row hides no other")
			err = pieces[0].Err
		}
		var problems Problems
		require.True(t, errors.As(err, &problems), tt.row)
		assert.Equal(t, tt.cell, problems[0].Cell, "%s: %s", tt.row, problems[0].Text)
		assert.Contains(t, problems[0].Text, tt.text, tt.row)
		assert.NotEmpty(t, problems[0].Fix)
	}
}

// Envelope × fill × density, by hand: 2 × 1 × 1 m × 10 % × 7850 kg/m³ = 1570 kg,
// -30 % / +50 %.
func TestARoughPieceByHand(t *testing.T) {
	pieces, err := ReadPieces(fstest.MapFS{"p.csv": {Data: []byte(pieceHead + "P,3,2000 x 1000 x 1000,10 %,structural steel,,,,,,\n")}}, "p.csv", Options{})
	require.NoError(t, err)
	p := pieces[0]
	require.NoError(t, p.Err)
	assert.Equal(t, 3, p.Quantity)
	best, low, high := p.Load.Parts[0].Mass()
	assert.InDelta(t, 1570, float64(best), 1e-6)
	assert.InDelta(t, 1099, float64(low), 1e-6)
	assert.InDelta(t, 2355, float64(high), 1e-6)
	assert.InDelta(t, 0.1, p.Load.Parts[0].Position, 1e-12, "10 % of the shorter side")
	assert.Equal(t, "EN", p.Load.Rigging.Rules)
	require.Len(t, p.Load.Rigging.Picks, 4)
	assert.InDeltaSlice(t, []float64{-0.8, -0.4, 1}, p.Load.Rigging.Picks[0].At[:], 1e-12)
	assert.Len(t, p.Assumed, 4)
}

func TestTwoPiecesOfOneMark(t *testing.T) {
	row := "P,1,500 x 500 x 500,,,50,,,,,\n"
	pieces, err := ReadPieces(fstest.MapFS{"p.csv": {Data: []byte(pieceHead + row + row)}}, "p.csv", Options{})
	require.NoError(t, err)
	assert.NoError(t, pieces[0].Err)
	assert.ErrorContains(t, pieces[1].Err, "here twice")
}

func TestFaultsOfRates(t *testing.T) {
	const head = "currency,EUR\nkind,family,material,size,rated (t),length (m),adjust from (m),buy,hire day,lead days\n"
	for _, tt := range []struct{ text, cell, says string }{
		{head + "slng,alloy chain,,8 mm,2,,,10,,\n", "A3", "not a kind"},
		{head + "sling,,,8 mm,2,,,10,,\n", "B3", "no family"},
		{head + "sling,alloy chain,,8 mm,,,,10,,\n", "E3", "no rated load"},
		{head + "sling,alloy chain,,8 mm,2,,,0,,\n", "H3", "above zero"},
		{head + "sling,alloy chain,,8 mm,2,,,-4,,\n", "H3", "above zero"},
		{head + "sling,alloy chain,,8 mm,2,,,cheap,,\n", "H3", "cheap"},
		{head + "sling,alloy chain,,8 mm,2,1,3,10,,\n", "G3", "adjusts from more"},
		{head + "sling,alloy chain,,8 mm,2,,,,,\n", "A3", "no price"},
		{head + "shackle,,,16 mm,2,,,10,,-1\n", "J3", "below zero"},
		{"kind,family,size,rated (t),buy\nsling,alloy chain,8 mm,2,10\n", "A1", "currency"},
		{head, "A2", "no rates"},
	} {
		_, err := ReadRates(fstest.MapFS{"r.csv": {Data: []byte(tt.text)}}, "r.csv", Options{})
		var problems Problems
		require.True(t, errors.As(err, &problems), tt.text)
		assert.Equal(t, tt.cell, problems[0].Cell, "%s: %s", tt.text, problems[0].Text)
		assert.Contains(t, problems[0].Text, tt.says)
	}
}

func TestListsAreToldByTheirHeaders(t *testing.T) {
	files := fstest.MapFS{
		"pieces.csv":  {Data: []byte(pieceHead + "P,1,500 x 500 x 500,,,50,,,,,\n")},
		"rates.csv":   {Data: []byte("currency,EUR\nkind,size,rated (t),buy\nshackle,16,2,10\n")},
		"rack.csv":    {Data: []byte("mark,family,size,length (m),rated (t),last inspection\nK,alloy chain,8 mm,2,2,2026-01-01\n")},
		"takeoff.csv": {Data: []byte("mark,size,material,x,y,z\nP,plate 100 x 100 x 10,structural steel,0,0,0\n")},
	}
	for name, want := range map[string]string{"pieces.csv": "pieces", "rates.csv": "rates", "rack.csv": "slings", "takeoff.csv": "take-off"} {
		assert.Equal(t, want, ListKind(files, name, Options{}), name)
	}
}

// A part put in between the others is one change, not a change of all that follow.
func TestInputsAreToldByName(t *testing.T) {
	files := fstest.MapFS{"a.yaml": {Data: []byte("load: x\nparts:\n  - {name: p, box: 1 x 2 x 3, center: [0, 0, 1]}\n  - {name: q, weight: 5 kg}\n")}}
	assert.Equal(t, []Input{{"load", "x"}, {"parts › p › name", "p"}, {"parts › p › box", "1 x 2 x 3"}, {"parts › p › center", "[0, 0, 1]"},
		{"parts › q › name", "q"}, {"parts › q › weight", "5 kg"}}, Inputs(files, "a.yaml", Options{}))
	assert.Nil(t, Inputs(files, "none.yaml", Options{}))
}
