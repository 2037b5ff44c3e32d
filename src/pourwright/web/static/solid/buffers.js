// Memory on the graphics card, given back as one.
export function buffers(gl) {
  const kept = [];
  const own = (kind) => {
    const thing = gl[`create${kind}`]();
    kept.push(() => gl[`delete${kind}`](thing));
    return thing;
  };

  /** Corners by the name of their input, and the triangles between them, if any. */
  function array(built, inputs, triangles = null) {
    const found = own("VertexArray");
    gl.bindVertexArray(found);
    for (const [name, values, size] of inputs) {
      const place = built.input(name);
      if (place < 0) continue; // the compiler drops an input that nothing reads
      gl.bindBuffer(gl.ARRAY_BUFFER, own("Buffer"));
      gl.bufferData(gl.ARRAY_BUFFER, values, gl.STATIC_DRAW);
      gl.enableVertexAttribArray(place);
      gl.vertexAttribPointer(place, size, gl.FLOAT, false, 0, 0);
    }
    if (triangles) {
      gl.bindBuffer(gl.ELEMENT_ARRAY_BUFFER, own("Buffer"));
      gl.bufferData(gl.ELEMENT_ARRAY_BUFFER, triangles, gl.STATIC_DRAW);
    }
    gl.bindVertexArray(null);
    return found;
  }

  function texture(smaller) {
    const found = own("Texture");
    gl.bindTexture(gl.TEXTURE_2D, found);
    gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MIN_FILTER, smaller);
    gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MAG_FILTER, gl.LINEAR);
    gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_WRAP_S, gl.CLAMP_TO_EDGE);
    gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_WRAP_T, gl.CLAMP_TO_EDGE);
    return found;
  }

  return { own, array, texture, free: () => kept.splice(0).forEach((give) => give()) };
}
