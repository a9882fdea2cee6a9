/** The few fields of ffprobe's stream list that are used; strings as ffprobe prints them. */
export interface ProbedStream {
  readonly codec_type?: string;
  readonly codec_name?: string;
  readonly width?: number;
  readonly height?: number;
  readonly pix_fmt?: string;
  readonly sample_aspect_ratio?: string;
  readonly color_range?: string;
  readonly color_primaries?: string;
  readonly color_transfer?: string;
  readonly color_space?: string;
  readonly sample_rate?: string;
  readonly channels?: number;
  readonly id?: string;
  readonly disposition?: { readonly attached_pic?: number };
  readonly tags?: Readonly<Record<string, string>>;
}

/** ffprobe's JSON of streams and format. */
export interface Probed {
  readonly streams: readonly ProbedStream[];
  readonly format?: { readonly tags?: Readonly<Record<string, string>> };
}
