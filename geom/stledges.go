package geom

import "math/bits"

// EdgeCounts are the edges of a surface that do not join two facets as they
// should. Edges are undirected; see [Health] for what each count means.
type EdgeCounts struct{ Open, Misoriented, Overused, Unbalanced int }

const (
	edgeBuckets = 1024 // each then fits the cache of one core, up to some ten million triangles
	edgeBlock   = 256  // half-edges that are set aside for a bucket at a time
)

// edges counts the faulty edges of a binary file, whatever the order of its
// facets: the half-edges are sorted by a hash into buckets, and each bucket is
// counted by a table that stays in the cache. It keeps 24 bytes for each triangle
// and no vertices, so it shares nothing with [Examine] but the file.
//
// An edge is known by 73 bits of hash: two different edges are taken for one with
// a chance of about E²/2⁷⁴, 10⁻⁹ for E = 7.5 million edges, if the hash is as good
// as random. The idea, a join partitioned by hash, is published (from memory).
func (b binaryFacets) edges() (EdgeCounts, error) {
	workers := workersFor(b.runs())
	sorters, errs := make([]edgeSorter, workers), make([]error, workers)
	AtOnce(workers, func(w int) {
		from, to := share(b.runs(), w, workers)
		var buffer facetBuffer
		for i := from; i < to && errs[w] == nil; i++ {
			var part []byte
			if _, part, errs[w] = b.raw(i, &buffer); errs[w] == nil {
				sorters[w].sort(part)
			}
		}
	})
	for _, err := range errs {
		if err != nil {
			return EdgeCounts{}, err
		}
	}
	counts := make([]EdgeCounts, edgeBuckets)
	ShareOut(edgeBuckets, workers, func() func(int) {
		var table edgeCounter
		return func(bucket int) { counts[bucket] = table.count(sorters, bucket) }
	})
	var all EdgeCounts
	for _, c := range counts {
		all.add(c)
	}
	return all, nil
}

func (c *EdgeCounts) add(d EdgeCounts) {
	c.Open += d.Open
	c.Misoriented += d.Misoriented
	c.Overused += d.Overused
	c.Unbalanced += d.Unbalanced
}

// edgeSorter keeps the half-edges that one worker has read, by bucket. The last
// bit of each says which way it runs.
type edgeSorter struct {
	buckets [edgeBuckets][][]uint64
	last    [edgeBuckets][]uint64 // the block of each bucket that has room
	spare   []uint64
}

// sort takes in triangles as they stand in the file. Those with two equal corners
// run along an edge and back, and are left out.
func (s *edgeSorter) sort(part []byte) {
	for ; len(part) >= binaryTriangle; part = part[binaryTriangle:] {
		p := (*[binaryTriangle]byte)(part)
		a, b, c := rawCornerHash(p[12:24]), rawCornerHash(p[24:36]), rawCornerHash(p[36:48])
		if a == b || b == c || c == a {
			continue
		}
		s.put(a, b)
		s.put(b, c)
		s.put(c, a)
	}
}

func (s *edgeSorter) put(a, b uint64) {
	high, low := bits.Mul64(a+b+mixEdge, a^b)
	_, back := bits.Sub64(a, b, 0)
	bucket := (high + low*mixCorner) >> (64 - 10)
	block := s.last[bucket]
	if len(block) == cap(block) {
		block = s.renew(bucket)
	}
	s.last[bucket] = append(block, (high^low)<<1|back)
}

// renew sets the full block of a bucket aside and gives it an empty one.
func (s *edgeSorter) renew(bucket uint64) []uint64 {
	if full := s.last[bucket]; full != nil {
		s.buckets[bucket] = append(s.buckets[bucket], full)
	}
	if len(s.spare) == 0 {
		s.spare = make([]uint64, 512*edgeBlock)
	}
	block := s.spare[:0:edgeBlock]
	s.spare = s.spare[edgeBlock:]
	return block
}

// edgeCounter is a hash table of edges with open addressing.
type edgeCounter struct{ slots []edgeSlot }

type edgeSlot struct {
	key       uint64
	net, uses int32 // uses one way less those the other way; 0 uses: free
}

// count counts the edges of one bucket of all workers.
func (t *edgeCounter) count(sorters []edgeSorter, bucket int) (c EdgeCounts) {
	halves := 0
	for i := range sorters {
		halves += len(sorters[i].last[bucket]) + edgeBlock*len(sorters[i].buckets[bucket])
	}
	if size := 1 << bits.Len(uint(2*halves)); size > len(t.slots) {
		t.slots = make([]edgeSlot, size)
	}
	clear(t.slots)
	for i := range sorters {
		for _, block := range sorters[i].buckets[bucket] {
			t.take(block)
		}
		t.take(sorters[i].last[bucket])
	}
	for _, s := range t.slots {
		c.judge(s.uses, s.net)
	}
	return c
}

func (t *edgeCounter) take(block []uint64) {
	mask := uint64(len(t.slots) - 1)
	for _, half := range block {
		key, step := half>>1, 1-2*int32(half&1)
		at := key & mask
		for t.slots[at].uses != 0 && t.slots[at].key != key {
			at = (at + 1) & mask
		}
		slot := &t.slots[at]
		slot.key, slot.net, slot.uses = key, slot.net+step, slot.uses+1
	}
}

func (c *EdgeCounts) judge(uses, net int32) {
	switch {
	case uses == 1:
		c.Open++
	case uses == 2 && net != 0:
		c.Misoriented++
	case uses > 2:
		c.Overused++
		if net != 0 {
			c.Unbalanced++
		}
	}
}
