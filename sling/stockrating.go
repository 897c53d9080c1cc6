package sling

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"plumbhook/units"
)

// lot is slings that are alike: they make a matched set.
type lot struct {
	items []StockItem
	fit   fit
}

// lots puts slings of one size and rating together, the smallest rating first;
// where only a least length is known, those of one length.
func (r rack) lots(items []StockItem) []*lot {
	var out []*lot
	alike := map[string]*lot{}
	for _, item := range items {
		key := fmt.Sprintf("%s|%.6g", tidy(item.Size), float64(item.Rated)) // 2 t and 2000 kg are one rating
		if r.need.Stock.AtLeast {
			key += fmt.Sprintf("|%.6g", item.Length)
		}
		if alike[key] == nil {
			alike[key] = &lot{}
			out = append(out, alike[key])
		}
		alike[key].items = append(alike[key].items, item)
	}
	for _, o := range out {
		o.fit = r.tried(o.items[0])
	}
	slices.SortStableFunc(out, func(a, b *lot) int {
		p, q := a.items[0], b.items[0]
		return cmp.Or(cmp.Compare(p.Rated, q.Rated), cmp.Compare(p.Length, q.Length))
	})
	return out
}

// tried puts a sling under the lift as every material that it may be.
func (r rack) tried(item StockItem) fit {
	var worst fit
	for i, f := range r.rows {
		size, _ := r.rated(f, item)
		t := fit{barred: r.unknownBend(f, size)}
		if t.barred == "" {
			t = r.try(f, r.own[i], size)
		}
		if t.barred != "" {
			return t
		}
		if i == 0 || t.use > worst.use {
			worst = t
		}
	}
	return worst
}

// unknownBend says why a rope or chain that bends or bears on an edge can't be
// rated: what it loses goes by its diameter, and for a rope by its end too.
func (r rack) unknownBend(f familyRow, size rating) string {
	_, bends := r.need.Surroundings.edge()
	inBasket := false
	for _, leg := range r.legs {
		bends = bends || leg.contact > 0
		inBasket = inBasket || leg.hitch == basket
	}
	switch {
	case !bends || f.body != "rope" && f.body != "chain":
		return ""
	case size.diameter == 0:
		return fmt.Sprintf("it bends or bears on an edge, and its size %q is not a diameter: what it loses there is not known", size.size)
	case f.body == "rope" && inBasket && size.termination == 0:
		return fmt.Sprintf("it bends, and its size %q is not in the table: what it loses there is not known", size.size)
	}
	return ""
}

// rated makes a rating of a sling: what its tag says, with what the table knows
// of the size. It also tells of a tag that is above the table, or above the next
// thicker size of the table where its own is not in it.
func (l *lift) rated(f familyRow, item StockItem) (size rating, over string) {
	size = rating{rules: f.rules, material: f.material, size: item.Size, vertical: item.Rated, printed: map[string]units.Mass{}}
	size.source, size.basis = "the tag, as listed", "stated"
	if d, err := units.ParseLength(item.Size, units.LengthUnit{}); err == nil && d > 0 && (f.body == "rope" || f.body == "chain") {
		size.diameter = d
	}
	row, own := l.likeSize(f, size)
	if own {
		// Choker, basket and set ratings go with the vertical one as the table has them.
		for column, printed := range row.printed {
			size.printed[column] = printed * item.Rated / row.vertical
		}
		size.diameter, size.termination, size.perMetre, size.perMetreCite = row.diameter, row.termination, row.perMetre, row.perMetreCite
	}
	if row.vertical > 0 && item.Rated > row.vertical*1.01 {
		over = fmt.Sprintf("listed as rated %s, above the %s that the table has for %s (%s): hold the list against the tag before use",
			item.Rated.FormatDown(units.Both), row.vertical.FormatDown(units.Both), row.size, row.cite)
	}
	return size, over
}

// likeSize returns the row of the table for a size, its own by the text, or else
// the next thicker one.
func (l *lift) likeSize(f familyRow, size rating) (row rating, own bool) {
	plain := func(text string) string { return strings.ReplaceAll(tidy(text), " ", "") }
	for _, r := range l.book.sizes(f) {
		if plain(r.size) == plain(size.size) {
			return r, true
		}
		if row.vertical == 0 && size.diameter > 0 && r.diameter >= size.diameter {
			row = r
		}
	}
	return row, false
}
