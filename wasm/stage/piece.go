package main

// pieces cuts a list of triangles over n vertices into runs of at most most
// vertices each, in the same order. draw gets the vertices of a run, by their
// old numbers, and its triangles by their place in that list. A list that fits
// comes whole, with pick nil.
func pieces(index []uint32, n, most int, draw func(pick []uint32, index []uint16)) {
	small := make([]uint16, 0, len(index))
	if n <= most {
		for _, i := range index {
			small = append(small, uint16(i))
		}
		draw(nil, small)
		return
	}
	place := make([]int32, n) // in pick, plus one; 0 = not there
	pick := make([]uint32, 0, most)
	for t := 0; t+2 < len(index); t += 3 {
		if len(pick)+3 > most {
			draw(pick, small)
			for _, i := range pick {
				place[i] = 0
			}
			pick, small = pick[:0], small[:0]
		}
		for _, i := range index[t : t+3] {
			if place[i] == 0 {
				pick = append(pick, i)
				place[i] = int32(len(pick))
			}
			small = append(small, uint16(place[i]-1))
		}
	}
	if len(small) > 0 {
		draw(pick, small)
	}
}
